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

describe('resampled', () => {
  it('keeps a tone below both half rates, at its own times', () => {
    const found = resampled(tone(700, 350, 20), { up: 8, down: 7 });
    near(found.subarray(100, 700), tone(800, 400, 20).subarray(100, 700), 2e-3);
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
