import { strict as assert } from 'node:assert';
import {
  bareName,
  endingOf,
  fileOf,
  isNotebookName,
  isRecordName,
  notebookStem,
  recordPath,
} from '../../src/result/fileNames.ts';

describe('names of files', () => {
  it('are the last part of a path, with an ending of one word or two', () => {
    assert.deepEqual(['raw/foam-1.csv.gz', 'foam-1.csv', '/a/b/foam'].map(fileOf), [
      'foam-1.csv.gz',
      'foam-1.csv',
      'foam',
    ]);
    assert.deepEqual(['raw.v2/foam-1.csv.gz', 'foam-1.csv', 'raw.v2/foam'].map(endingOf), ['.csv.gz', '.csv', '']);
  });

  it('call runs, without folder and endings', () => {
    assert.deepEqual(['raw.v2/foam-1.csv.gz', 'foam-1.wav', 'raw.v2/foam'].map(bareName), ['foam-1', 'foam-1', 'foam']);
  });

  it('of what a notebook gives begin as its own, and a record stands beside it', () => {
    assert.deepEqual(['sub/ride.washboard.md', 'ride.md'].map(notebookStem), ['sub/ride', 'ride']);
    assert.equal(recordPath('sub/ride.washboard.md'), 'sub/ride.record.json');
    assert.equal(recordPath('ride.md'), 'ride.record.json');
    assert.deepEqual(
      ['a/ride.washboard.md', 'RIDE.Washboard.MD', 'ride.md', 'ride.washboard.md.bak'].map(isNotebookName),
      [true, true, false, false],
    );
    assert.deepEqual(['a/ride.RECORD.json', 'ride.record.json.bak', 'record.json'].map(isRecordName), [
      true,
      false,
      false,
    ]);
  });
});
