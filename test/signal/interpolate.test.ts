import { strict as assert } from 'node:assert';
import { placesWithin, reach, valuesBetween } from '../../src/signal/interpolate.ts';

const wave = (n: number, cycles: number): number => Math.cos(2 * Math.PI * cycles * n + 0.7);

describe('values between samples', () => {
  it('are those of the wave up to 0.4 of the rate, and the samples themselves on whole places', () => {
    for (const cycles of [0.01, 0.2, 0.4]) {
      const samples = Float64Array.from({ length: 200 }, (_, n) => wave(n, cycles));
      const found = valuesBetween(samples, 40.3, 0.97, 100);
      found.forEach((value, i) => assert.ok(Math.abs(value - wave(40.3 + 0.97 * i, cycles)) < 2e-4, `${cycles} ${i}`));
      valuesBetween(samples, 50, 1, 20).forEach((value, i) => assert.ok(Math.abs(value - samples[50 + i]) < 1e-12));
    }
  });

  it('keep a constant to the last digits', () => {
    const samples = new Float64Array(100).fill(3);
    for (const value of valuesBetween(samples, 30.123, 0.77, 30)) assert.ok(Math.abs(value - 3) < 1e-12);
  });

  it('lie within what the piece holds, and are refused beyond it', () => {
    const samples = new Float64Array(100);
    const { from, to } = placesWithin(100, -10.5, 1.3, 200);
    assert.equal(valuesBetween(samples, -10.5 + 1.3 * from, 1.3, to - from).length, to - from);
    assert.throws(() => valuesBetween(samples, -10.5 + 1.3 * (from - 1), 1.3, 1), RangeError);
    assert.throws(() => valuesBetween(samples, -10.5 + 1.3 * to, 1.3, 1), RangeError);
    assert.equal(placesWithin(2 * reach - 2, 0, 1, 50).to - placesWithin(2 * reach - 2, 0, 1, 50).from, 0);
  });
});
