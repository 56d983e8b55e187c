import { strict as assert } from 'node:assert';
import { gapsBetween, longestOf, trimStretches } from '../../src/signal/stretch.ts';

describe('longestOf', () => {
  it('is had of more stretches than a function takes arguments', () => {
    const stretches = Array.from({ length: 300_000 }, (_, i) => ({ from: 5 * i, to: 5 * i + 4 - (i % 3), start: i }));
    assert.equal(longestOf(stretches), 4);
    assert.equal(longestOf([]), 0);
  });
});

describe('trimStretches', () => {
  it('keeps the samples with begin <= t < end', () => {
    const whole = [{ from: 0, to: 29_750, start: 0 }];
    assert.deepEqual(trimStretches(whole, 350, 5, 80), [{ from: 1750, to: 28_000, start: 5 }]);
    assert.deepEqual(trimStretches(whole, 350, 5.001, 5.004), [{ from: 1751, to: 1752, start: 1751 / 350 }]);
  });

  it('does not lose the sample on the edge to a rate measured from rounded stamps', () => {
    for (const rate of [349.9999994, 350.0000006]) {
      const [{ from, to }] = trimStretches([{ from: 0, to: 29_750, start: 0 }], rate, 5, 80);
      assert.deepEqual([from, to], [1750, 28_000]);
    }
  });

  it('keeps to the clock across a gap and drops stretches of which nothing is left', () => {
    const gappy = [
      { from: 0, to: 100, start: 0 },
      { from: 100, to: 200, start: 3 },
      { from: 200, to: 300, start: 9 },
    ];
    assert.deepEqual(trimStretches(gappy, 100, 0.5, 3.5), [
      { from: 50, to: 100, start: 0.5 },
      { from: 100, to: 150, start: 3 },
    ]);
    assert.deepEqual(trimStretches(gappy, 100, 5, 8), []);
  });
});

describe('gapsBetween', () => {
  it('begins a gap at the time of the sample before it, where samples were not taken evenly', () => {
    const stretches = [
      { from: 0, to: 3, start: 0 },
      { from: 3, to: 5, start: 4 },
    ];
    const times = Float64Array.of(0, 0.2, 0.3, 4, 5);
    assert.deepEqual(gapsBetween(stretches, 1, times), [{ from: 0.3, to: 4, row: 3 }]);
    assert.deepEqual(gapsBetween(stretches, 1), [{ from: 2, to: 4, row: 3 }]);
  });
});
