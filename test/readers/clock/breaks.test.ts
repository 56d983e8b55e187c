import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { findBreaks, spansOf } from '../../../src/readers/clock/breaks.ts';

const of = (...stamps: number[]): Float64Array => Float64Array.from(stamps);
/** The rows after a break of stamps with a step of 1 s and gaps beyond 1.5 s; those of a reset with a minus. */
const breaksOf = (t: Float64Array, { shared = false, usual = 1, limit = 1.5, burst = 0 } = {}): number[] =>
  findBreaks(t, usual, limit, shared, burst).map(({ row, reset }) => (reset ? -row : row));

describe('the breaks of a clock', () => {
  it('stand where samples are lost, at the first row behind them, wherever that is', () => {
    const law = fc.property(
      fc.integer({ min: 2, max: 30 }),
      fc.nat(),
      fc.integer({ min: 1, max: 9 }),
      (count, at, lost) => {
        const row = 1 + (at % (count - 1));
        const t = Float64Array.from({ length: count }, (_, i) => i + (i >= row ? lost : 0));
        assert.deepEqual(breaksOf(t), [row]);
      },
    );
    fc.assert(law);
  });

  it('are told apart where they stand next to each other', () => {
    assert.deepEqual(breaksOf(of(0, 1, 2, 3, 6, 9, 10, 11, 12)), [4, 5]);
    assert.deepEqual(breaksOf(of(0, 1, 2, 3, 6, 7, 10, 11, 12)), [4, 6]);
    assert.deepEqual(breaksOf(of(0, 3, 6, 9)), [1, 2, 3]);
  });

  it('are none where one stamp was only late, however late it was', () => {
    for (const late of [0.6, 0.9, 1.4]) {
      const t = Float64Array.from({ length: 12 }, (_, i) => i);
      t[5] += late;
      assert.deepEqual(breaksOf(t), [], `${late} s`);
    }
    // Several late ones in a row are, once they are most of what follows.
    const t = Float64Array.from({ length: 12 }, (_, i) => i + (i >= 5 && i < 9 ? 0.9 : 0));
    assert.deepEqual(breaksOf(t), [5]);
  });

  it('are each long step where samples share a stamp', () => {
    const late = of(0, 1, 2, 3, 4.9, 5, 6, 7, 8);
    assert.deepEqual(breaksOf(late), []);
    assert.deepEqual(breaksOf(late, { shared: true }), [4]);
    assert.deepEqual(breaksOf(of(0, 1, 2.5, 4.1), { shared: true }), [3]);
  });

  it('are a reset where the clock goes back by more than a second, twenty steps and four bursts', () => {
    const back = (by: number, more = {}): number[] =>
      breaksOf(of(100, 101, 101 - by, 102 - by), { limit: 1e9, ...more });
    assert.deepEqual([back(20), back(20.5)], [[], [-2]]);
    assert.deepEqual([back(1, { usual: 0.01 }), back(1.5, { usual: 0.01 })], [[], [-2]]);
    assert.deepEqual([back(2, { usual: 0.1 }), back(2.5, { usual: 0.1 })], [[], [-2]]);
    assert.deepEqual([back(8, { usual: 0.1, burst: 2 }), back(8.5, { usual: 0.1, burst: 2 })], [[], [-2]]);
  });

  it('part the rows into spans', () => {
    const breaks = [4, 6].map((row) => ({ row, reset: false }));
    assert.deepEqual(spansOf(9, breaks), [
      { from: 0, to: 4 },
      { from: 4, to: 6 },
      { from: 6, to: 9 },
    ]);
    assert.deepEqual(spansOf(9, []), [{ from: 0, to: 9 }]);
  });
});
