import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { rationalRatio, resampled } from '../../src/signal/resample.ts';
import { near, record } from '../published/vectors.ts';

const tone = (count: number, rate: number, frequency: number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => Math.cos((2 * Math.PI * frequency * n) / rate));

describe('rationalRatio', () => {
  it('finds the ratio of two rates', () => {
    assert.deepEqual(rationalRatio(400 / 350), { up: 8, down: 7 });
    assert.deepEqual(rationalRatio(400 / 349.9999994), { up: 8, down: 7 });
    assert.deepEqual(rationalRatio(0.25), { up: 1, down: 4 });
    assert.deepEqual(rationalRatio(3), { up: 3, down: 1 });
  });

  it('takes the first convergent within the tolerance, as 22/7 and 355/113 are for pi', () => {
    assert.deepEqual(rationalRatio(Math.PI, 1e-2), { up: 22, down: 7 });
    assert.deepEqual(rationalRatio(Math.PI, 1e-6), { up: 355, down: 113 });
  });

  it('stays within its tolerance, or within one part in 10 000 squared where whole numbers run out', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), (ratio) => {
        const { up, down } = rationalRatio(ratio);
        assert.ok(up >= 1 && down >= 1 && Math.max(up, down) <= 10_000);
        assert.ok(
          Math.abs(up / down / ratio - 1) <= 1.01e-4 / Math.min(1, down, up) && Math.abs(up / down / ratio - 1) < 1e-3,
        );
      }),
    );
  });

  it('refuses a ratio of 0 and one beyond reach', () => {
    assert.throws(() => rationalRatio(0), RangeError);
    assert.throws(() => rationalRatio(123_456), RangeError);
    assert.throws(() => rationalRatio(1 / 10_001), /more than 10000/);
    assert.deepEqual(rationalRatio(10_000), { up: 10_000, down: 1 });
  });
});

/** A ratio in lowest terms. */
const lowest = (up: number, down: number): [number, number] => {
  const divisor = [6, 5, 4, 3, 2, 1].find((one) => up % one === 0 && down % one === 0)!;
  return [up / divisor, down / divisor];
};

describe('resampled', () => {
  it('keeps a tone below both half rates, at its own times', () => {
    const found = resampled(tone(700, 350, 20), { up: 8, down: 7 });
    near(found.subarray(100, 700), tone(800, 400, 20).subarray(100, 700), 2e-3);
  });

  it('is at each new time the sum of all samples by the sinc under its Kaiser window, whatever the ratio', () => {
    /** Bessel's function of order 0 by its integral (DLMF 10.32.1), over evenly spaced angles. */
    const bessel = (x: number): number =>
      Array.from({ length: 64 }, (_, k) => Math.exp(x * Math.cos((Math.PI * (k + 0.5)) / 64))).reduce(
        (a, b) => a + b,
        0,
      ) / 64;
    const slowly = (samples: Float64Array, up: number, down: number): number[] => {
      const [slower, mean] = [Math.max(up, down), samples.reduce((a, b) => a + b, 0) / samples.length];
      const half = 10 * slower;
      const shape = Array.from({ length: 2 * half + 1 }, (_, n) => {
        const m = n - half;
        const sinc = m === 0 ? 1 : Math.sin((Math.PI * m) / slower) / ((Math.PI * m) / slower);
        return sinc * bessel(5 * Math.sqrt(1 - (m / half) ** 2));
      });
      const gain = up / shape.reduce((a, b) => a + b, 0);
      return Array.from({ length: Math.ceil((samples.length * up) / down) }, (_, j) =>
        samples.reduce((sum, value, i) => sum + (value - mean) * gain * (shape[j * down + half - i * up] ?? 0), mean),
      );
    };
    const samples = record(3, 90);
    for (let up = 1; up <= 6; up++)
      for (let down = 1; down <= 6; down++)
        if (up !== down)
          near(resampled(samples, { up, down }), slowly(samples, ...lowest(up, down)), 1e-12, `${up}/${down}`);
  });

  it('takes away what the lower rate could not carry', () => {
    const found = resampled(tone(4000, 400, 90), { up: 1, down: 4 });
    assert.ok(Math.max(...found.subarray(50, 950).map(Math.abs)) < 2e-3);
  });

  it('does not dip at the ends of a record with gravity in it', () => {
    near(resampled(new Float64Array(200).fill(9.81), { up: 8, down: 7 }), new Float64Array(229).fill(9.81), 1e-14);
  });

  it('refuses a ratio that is not above 0', () => {
    for (const ratio of [
      { up: 0, down: 1 },
      { up: 1, down: 0 },
      { up: -1, down: 2 },
    ])
      assert.throws(() => resampled(record(1, 10), ratio), /whole numbers from 1/);
  });

  it('by 1 is the samples themselves', () => {
    const samples = record(1, 10);
    assert.equal(resampled(samples, { up: 3, down: 3 }), samples);
  });
});
