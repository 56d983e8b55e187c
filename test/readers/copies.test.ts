import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { copiesOf, rowsSentAgain } from '../../src/readers/copies.ts';
import { findingOf, recordingOf, refusalOf, rows, samplesOf } from './memory.ts';

/** A row of a recording at 100 Hz whose readings come again nowhere. */
const row = (i: number): readonly (string | number)[] => [
  (i / 100).toFixed(2),
  (0.01 * Math.sin(i)).toFixed(6),
  (0.02 * Math.cos(3 * i)).toFixed(6),
  (1 + 0.1 * Math.sin(7 * i)).toFixed(6),
];
const header = 't (s),x (g),y (g),z (g)\n';
const ofRows = (order: readonly number[]): string => header + rows(order.length, (i) => row(order[i]));

describe('copiesOf', () => {
  it('tells rows that say what a row before them says, of one column and of several', () => {
    assert.deepEqual([...copiesOf([Float64Array.of(3, 1, 3, 2, 1)])], [0, 0, 1, 0, 1]);
    assert.deepEqual([...copiesOf([Float64Array.of(3, 1, 3), Float64Array.of(1, 1, 2)])], [0, 0, 0]);
    assert.deepEqual([...copiesOf([])], []);
  });

  it('tells them of any values, by every bit of each', () => {
    // Neighbours in their lowest bit, in their highest, and numbers that share one half with another.
    const values = [0, 1, 2, 3, 1 + 2 ** -52, -1, 4, 0.1, 0.1 + 2 ** -56, 1e300, -1e300, NaN];
    const column = fc.array(fc.constantFrom(...values), { minLength: 60, maxLength: 60 });
    const law = fc.property(
      fc.array(column, { minLength: 1, maxLength: 3 }),
      fc.integer({ min: 1, max: 60 }),
      (all, rows) => {
        const columns = all.map((one) => Float64Array.from(one.slice(0, rows)));
        const seen = new Set<string>();
        const expected = Array.from({ length: rows }, (_, row) => {
          const said = columns.map((one) => String(one[row])).join(' ');
          const isCopy = seen.has(said);
          seen.add(said);
          return isCopy ? 1 : 0;
        });
        assert.deepEqual([...copiesOf(columns)], expected);
      },
    );
    fc.assert(law, { numRuns: 300 });
  });
});

describe('rows that were sent again', () => {
  it('are left out wherever their copies stand, and the rate is that of what remains', async () => {
    // Buffers of 20 rows; every other one is sent again, row by row among the next one's or after it.
    const order: number[] = [];
    for (let from = 0; from < 2000; from += 20) {
      const again = from > 0 && from % 40 === 0;
      for (let i = from; i < from + 20; i++) order.push(i, ...(again && from % 80 === 0 ? [i - 20] : []));
      for (let i = from; i < from + 20; i++) if (again && from % 80 !== 0) order.push(i - 20);
    }
    const recording = await recordingOf(ofRows(order));
    assert.equal(recording.clock.rate, 100);
    assert.equal(recording.clock.stretches.length, 1);
    assert.deepEqual(
      samplesOf(recording, 'z'),
      Array.from({ length: 2000 }, (_, i) => Number(row(i)[3])),
    );
    const told = findingOf(recording, 'rows-sent-again');
    assert.equal(told?.value, order.length - 2000);
    assert.equal(told?.severity, 'warning');
    assert.match(told?.message ?? '', /line 62/);
    assert.equal(findingOf(recording, 'bursts'), undefined);
  });

  it('are refused with the file where what remains does not run forward', async () => {
    const order = Array.from({ length: 400 }, (_, i) => i);
    order.splice(200, 0, ...order.slice(150, 160));
    [order[300], order[301], order[302]] = [order[302], order[300], order[301]];
    const failure = await refusalOf(ofRows(order));
    assert.equal(failure.code, 'rows-disordered');
    assert.match(failure.message, /10 rows .* 1 stamp still runs backwards/);
  });

  it('are no rows that only share a stamp or come back in value', () => {
    const stamps = Float64Array.from([0, 0, 1, 1, 2, 2]);
    const still = new Float64Array(6);
    assert.deepEqual([...rowsSentAgain(stamps, [stamps, still])], [0, 0, 0, 0, 0, 0]);
    const back = Float64Array.from([0, 1, 2, 1, 2, 2, 3]);
    assert.deepEqual([...rowsSentAgain(back, [back, new Float64Array(7)])], [0, 0, 0, 1, 1, 1, 0]);
    const fresh = Float64Array.from([0, 0, 0, 5, 0, 6, 0]);
    assert.deepEqual([...rowsSentAgain(back, [back, fresh])], [0, 0, 0, 0, 0, 0, 0]);
  });
});
