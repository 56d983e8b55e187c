import { strict as assert } from 'node:assert';
import { removeLine, removeMean } from '../../src/signal/detrend.ts';
import { lastTime, trimStretches, wholeStretch } from '../../src/signal/stretch.ts';
import { close } from '../published/vectors.ts';

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
    close(lastTime(gappy, 100), 9.99, 1e-12);
  });
});

describe('removeMean and removeLine', () => {
  it('remove what was added, in place', () => {
    const samples = Float64Array.of(1, -1, 2, -2).map((value) => value + 7);
    assert.equal(removeMean(samples, samples), 7);
    assert.deepEqual([...samples], [1, -1, 2, -2]);
  });

  it('fit one line to all stretches, each at its own time', () => {
    const stretches = [
      { from: 0, to: 5, start: 0 },
      { from: 5, to: 9, start: 10 },
    ];
    const samples = Float64Array.from({ length: 9 }, (_, i) => 3 + 0.5 * (i < 5 ? i / 2 : 10 + (i - 5) / 2));
    const { offset, slope } = removeLine(samples, samples, stretches, 2);
    close(offset, 3, 1e-12);
    close(slope, 0.5, 1e-12);
    assert.ok(Math.max(...samples.map(Math.abs)) < 1e-12);
  });

  it('refuse stretches that do not hold the whole signal', () => {
    const samples = new Float64Array(5);
    assert.throws(
      () => removeLine(samples, samples, [{ from: 0, to: 4, start: 0 }], 1),
      /hold 4 samples, the signal 5/,
    );
    assert.doesNotThrow(() => removeLine(samples, samples, [wholeStretch(samples)], 1));
  });
});
