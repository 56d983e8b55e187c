import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { sheetOfFiles, sheetOfOrder } from '../../../src/analysis/planning/sheetText.ts';
import { valueOf } from '../../verbs/notebook.ts';

describe('a run sheet to be filled in', () => {
  it('names the files there are, and guesses the condition from each', () => {
    const lines = sheetOfFiles(['brick-foam-1.csv.gz', 'a "b", 2.csv']).split('\n');
    assert.equal(lines[0], 'file,condition,order,pair,day,date,speed (m/s),mass (kg),pressure (bar),note,excluded,why');
    assert.equal(lines[1], 'brick-foam-1.csv.gz,brick-foam,,,,,,,,,,');
    assert.equal(lines[2], '"a ""b"", 2.csv","a ""b"",",,,,,,,,,,');
  });

  it('can be read again whatever the files are called', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.uniqueArray(fc.stringMatching(/^[a-z ,"'é;-]{1,12}[a-z]$/), {
          minLength: 1,
          maxLength: 4,
          selector: (name) => name.trim(),
        }),
        async (names) => {
          const files = names.map((name) => `${name.trim()}.csv`);
          const value = await valueOf('sheet', 'sheet "runs.csv"', { 'runs.csv': sheetOfFiles(files) });
          assert.deepEqual(
            value.rows.map(({ file }) => file),
            files,
          );
        },
      ),
      { numRuns: 30 },
    );
  });

  it('has a row a run to be made', () => {
    assert.equal(sheetOfOrder(['A', 'B'], ['foam', 'gel']).split('\n')[2], ',gel,2,,,,,,,,,');
  });
});
