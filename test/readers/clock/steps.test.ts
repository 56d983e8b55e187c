import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { median, resolutionOf, stampQuantum, stepCounts, stepShape } from '../../../src/readers/clock/steps.ts';

const of = (...values: number[]): Float64Array => Float64Array.from(values);

/** Stamps whose steps are given. */
const stamps = (steps: readonly number[], first = 0): Float64Array => {
  let at = first;
  return of(first, ...steps.map((step) => (at += step)));
};

describe('steps between stamps', () => {
  it('have the median of the sorted middle, of two the mean, and leave the numbers as they stand', () => {
    const law = fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 40 }), (list) => {
      const values = Float64Array.from(list);
      const sorted = [...list].sort((a, b) => a - b);
      const half = (sorted.length - 1) / 2;
      assert.equal(median(values), (sorted[Math.floor(half)] + sorted[Math.ceil(half)]) / 2);
      assert.deepEqual([...values], list);
    });
    fc.assert(law, { numRuns: 200 });
    assert.ok(Number.isNaN(median(of())));
  });

  it('are counted by the way they go; an empty stamp leaves none', () => {
    assert.deepEqual(stepCounts(of(1, 2, 2, 1, 4, 5)), { count: 5, forward: 3, zero: 1, backward: 1 });
    assert.deepEqual(stepCounts(of(1, NaN, 2)), { count: 2, forward: 0, zero: 0, backward: 0 });
    assert.deepEqual(stepCounts(of(7)), { count: 0, forward: 0, zero: 0, backward: 0 });
    assert.deepEqual(stepCounts(of()), { count: 0, forward: 0, zero: 0, backward: 0 });
  });

  it('have a usual length of all, and of those that go forward, and a high one', () => {
    const all = [1, 1, 1, 0, 0, 0, 0, -2, 3, 9];
    const shape = stepShape(stamps(all));
    assert.equal(shape.median, 0.5);
    assert.equal(shape.forwardMedian, 1);
    assert.equal(shape.forwardHigh, 9);
    assert.deepEqual([shape.count, shape.forward, shape.zero, shape.backward], [10, 5, 4, 1]);
    const even = stepShape(stamps(Array.from({ length: 100 }, (_, i) => i + 1)));
    assert.deepEqual([even.median, even.forwardMedian, even.forwardHigh], [50.5, 50.5, 96]);
    const gappy = stepShape(of(0, 1, NaN, 5, 7));
    assert.deepEqual([gappy.median, gappy.forwardMedian], [1.5, 1.5]);
    const back = stepShape(stamps([-1, 0, -2]));
    assert.equal(back.median, -1);
    assert.ok(Number.isNaN(back.forwardMedian) && Number.isNaN(back.forwardHigh), 'no step goes forward');
    for (const none of [stepShape(of()), stepShape(of(3))]) {
      assert.ok(Number.isNaN(none.median) && Number.isNaN(none.forwardMedian) && Number.isNaN(none.forwardHigh));
    }
  });

  it('are looked at here and there in a long recording', () => {
    // Every second step is looked at: those that are 1, not those that are 3.
    const shape = stepShape(stamps(Array.from({ length: 40_000 }, (_, i) => (i % 2 === 0 ? 1 : 3))));
    assert.equal(shape.median, 1);
    assert.equal(shape.forwardHigh, 1);
    const short = stepShape(stamps(Array.from({ length: 39_998 }, (_, i) => (i % 2 === 0 ? 1 : 3))));
    assert.equal(short.median, 2);
    assert.equal(short.forwardHigh, 3);
  });
});

describe('the step that stamps are rounded to', () => {
  const steps = (units: readonly number[], resolution: number): Float64Array =>
    stamps(units.map((unit) => unit * resolution));

  it('is the largest that every step is a multiple of, where steps differ', () => {
    assert.equal(stampQuantum(steps([4, 6, 4, 6, 4, 4, 6, 6, 4, 6], 1), 1), 2);
    assert.equal(stampQuantum(steps([10, 20, 10, 10, 20, 20, 10, 20, 10, 20], 1), 1), 10);
    assert.ok(Math.abs(stampQuantum(steps([20, 10, 10, 20, 20, 10, 20, 10, 20], 0.001), 0.001) - 0.01) < 1e-15);
  });

  it('is one unit of the last digit where steps share no multiple, or are all alike but for gaps', () => {
    assert.equal(stampQuantum(steps([4, 7, 4, 6, 4, 4, 6], 0.5), 0.5), 0.5);
    const alike = Array.from({ length: 100 }, (_, i) => (i % 25 === 7 ? 20 : 10));
    assert.equal(stampQuantum(steps(alike, 1), 1), 1);
    const fewer = Array.from({ length: 100 }, (_, i) => (i % 20 === 7 ? 20 : 10));
    assert.equal(stampQuantum(steps(fewer, 1), 1), 10);
    // Odd ones here and there, as no rounding makes them: a twentieth of the steps is too many for losses, a little less is not.
    const odd = [7, 8, 9, 50, 90];
    const scattered = Array.from({ length: 101 }, (_, i) => (odd.includes(i) ? 20 : 10));
    assert.equal(stampQuantum(steps(scattered, 1), 1), 1);
    assert.equal(stampQuantum(steps(scattered.slice(0, 100), 1), 1), 10);
  });

  it('is not upset by where a gap ends', () => {
    assert.equal(stampQuantum(steps([4, 6, 4, 6, 4, 31, 4, 6, 6, 4, 6], 1), 1), 2);
    // Not longer than two and a half usual steps, it counts.
    assert.equal(stampQuantum(steps([4, 6, 4, 6, 4, 9, 4, 6, 6, 4, 6], 1), 1), 1);
  });

  it('counts every step where most are of one unit or none', () => {
    assert.equal(stampQuantum(steps([0, 0, 10, 0, 0, 0, 10, 0, 0, 20, 0, 0], 1), 1), 10);
  });

  it('looks at the beginning of a long recording', () => {
    const long = Array.from({ length: 6000 }, (_, i) => (i < 4999 ? (i % 2 === 0 ? 4 : 6) : 5));
    assert.equal(stampQuantum(steps(long, 1), 1), 2);
    long[4998] = 5;
    assert.equal(stampQuantum(steps(long, 1), 1), 1);
  });

  it('is nothing where the digits tell nothing', () => {
    assert.equal(stampQuantum(stamps([1, 2, 1, 2]), 0), 0);
    assert.equal(stampQuantum(stamps([1, 2, 1, 2]), NaN), 0);
    assert.equal(stampQuantum(stamps([1e3, 2e3, 1e3, 2e3]), 1e-15), 1e-15);
  });

  it('is found in steps back as well', () => {
    assert.equal(stampQuantum(steps([4, 6, -4, 6, 4, 6, 6, 4], 1), 1), 2);
  });
});

describe('stamps that count whole ms with finer digits', () => {
  /** Even samples at a rate, without those whose number a test turns down, each stamp to the nearest ms. */
  const inMs = (rate: number, isKept: (i: number) => boolean = () => true): Float64Array =>
    of(...Array.from({ length: 4000 }, (_, i) => i).filter(isKept)).map((i) => Math.round((1000 * i) / rate) / 1000);
  const hasNoLoss = (i: number): boolean => {
    const turns = 43758.5453 * Math.sin(12.9898 * (i + 1));
    return turns - Math.floor(turns) > 0.02;
  };

  it('are no finer than a ms where some are left out', () => {
    for (const first of [0, 1.7e9])
      assert.equal(
        resolutionOf(
          inMs(990).map((t) => first + t),
          1e-6,
        ),
        1e-3,
      );
    assert.equal(resolutionOf(inMs(1000, hasNoLoss), 1e-9), 1e-3);
  });

  it('are as fine as their digits where none is left out, where steps are longer, and where they are no whole ms', () => {
    assert.equal(resolutionOf(inMs(1000), 1e-6), 1e-6);
    assert.equal(resolutionOf(inMs(400), 1e-6), 1e-6);
    assert.equal(resolutionOf(inMs(1010), 1e-6), 1e-6);
    assert.equal(
      resolutionOf(
        inMs(990).map((t) => 1.00002 * t),
        1e-6,
      ),
      1e-6,
    );
    assert.equal(resolutionOf(inMs(990), 1e-2), 1e-2);
  });

  it('are rounded to it where the odd steps come as by rounding, and not where they come as losses do', () => {
    assert.ok(Math.abs(stampQuantum(inMs(990), 1e-6) - 1e-3) < 1e-12, 'one odd step in a hundred');
    assert.ok(Math.abs(stampQuantum(inMs(1010), 1e-6) - 1e-3) < 1e-12, 'one stamp in a hundred is there twice');
    assert.equal(stampQuantum(inMs(1000, hasNoLoss), 1e-6), 1e-6);
  });
});
