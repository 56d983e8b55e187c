import { strict as assert } from 'node:assert';
import { StampReader } from '../../../src/readers/text/stamp.ts';
import { stampForm } from '../../../src/readers/text/stampForm.ts';
import { steadyStamp } from '../../../src/readers/text/steadyStamp.ts';

/** A reader of stamps of the form of some cells, that has read the first. */
function readerOf(...cells: string[]): StampReader {
  const reader = new StampReader(stampForm(cells)!);
  const bytes = new TextEncoder().encode(cells[0]);
  reader.read(bytes, 0, bytes.length);
  return reader;
}

const day = Date.UTC(2024, 4, 14) / 86_400_000;

describe('how all stamps of a column are spelt', () => {
  it('is told by one that is spelt as ISO 8601 has it, with a date or without, and its offset in s', () => {
    for (const [text, isDated, suffix, offset] of [
      ['2024-05-14 09:30:12.250', true, '', 0],
      ['2024/05/14T09:30:12Z', true, 'Z', 0],
      ['2024-05-14T09:30:12.25+02:00', true, '+02:00', 7200],
      ['2024-05-14T09:30:12,25-0530', true, '-0530', -19_800],
      ['09:30:12.250', false, '', 0],
      ['09:30:12', false, '', 0],
    ] as const) {
      const reader = readerOf(text);
      assert.deepEqual(steadyStamp(reader, text), { isDated, base: isDated ? day : 0, suffix, offset }, text);
    }
  });

  it('is not told of another spelling, nor of a date that others than its own form have', () => {
    for (const text of ['14.05.2024 09:30:12', '5/14/2024 9:30:12 PM', '30:12.25', '9:30:12.25', '20240514T093012.25'])
      assert.equal(steadyStamp(readerOf(text), text), undefined, text);
    const [dated, bare] = ['2024-05-14 09:30:12.250', '09:30:12.250'];
    assert.equal(steadyStamp(readerOf(dated), bare), undefined);
    assert.equal(steadyStamp(readerOf(bare), dated), undefined);
    assert.equal(steadyStamp(readerOf('14.05.2024 09:30:12'), bare), undefined);
    // Milliseconds without leading zeros are no fraction.
    const cells = ['12:00:00.5', '12:00:00.10', '12:00:00.15', '12:00:00.995', '12:00:01.0'];
    assert.equal(steadyStamp(readerOf(...cells), cells[1]), undefined);
  });

  it('is not told before the first day is known', () => {
    const reader = new StampReader(stampForm(['2024-05-14 09:30:12'])!);
    assert.equal(steadyStamp(reader, '2024-05-14 09:30:12'), undefined);
  });
});
