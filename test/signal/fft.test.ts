import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { fft, realFft } from '../../src/signal/fft.ts';
import { near, noise } from '../published/vectors.ts';
import { directSum } from './directSum.ts';

const anyLength = fc.integer({ min: 1, max: 700 });

describe('fft', () => {
  it('equals the defining sum for every length to 600, and for larger primes and their multiples', () => {
    const lengths = Array.from({ length: 600 }, (_, k) => k + 1);
    for (const length of [...lengths, 699, 1009, 1361, 2 * 1009, 4 * 47 * 11, 4099]) {
      const [re, im] = [noise(length, length), noise(length + 1000, length)];
      const [expectedRe, expectedIm] = directSum(re, im);
      fft(length).forward(re, im);
      near([...re, ...im], [...expectedRe, ...expectedIm], 3e-13, `length ${length}`);
    }
  });

  it('of a sum is the sum of the transforms, and of a multiple the multiple', () => {
    const factor = fc.integer({ min: -1000, max: 1000 }).map((eighths) => eighths / 8);
    fc.assert(
      fc.property(anyLength, fc.nat(), factor, factor, (length, seed, first, second) => {
        const parts = [0, 1, 2, 3].map((k) => noise(seed + k, length));
        const [re, im] = [0, 1].map((k) => parts[k].map((value, n) => first * value + second * parts[k + 2][n]));
        fft(length).forward(re, im);
        fft(length).forward(parts[0], parts[1]);
        fft(length).forward(parts[2], parts[3]);
        const expected = [0, 1].map((k) => parts[k].map((value, n) => first * value + second * parts[k + 2][n]));
        const scale = Math.sqrt(length) * (Math.abs(first) + Math.abs(second));
        [re, im].forEach((found, k) =>
          assert.ok(
            found.every((value, n) => Math.abs(value - expected[k][n]) <= 1e-13 * scale),
            `length ${length}`,
          ),
        );
      }),
      { numRuns: 60 },
    );
  });

  it('is undone by its inverse, for any length', () => {
    fc.assert(
      fc.property(anyLength, fc.nat(), (length, seed) => {
        const re = noise(seed, length);
        const im = noise(seed + 1, length);
        const [re0, im0] = [re.slice(), im.slice()];
        fft(length).forward(re, im);
        fft(length).inverse(re, im);
        near([...re, ...im], [...re0, ...im0], 1e-14);
      }),
      { numRuns: 60 },
    );
  });

  it('keeps the sum of squares, whatever the length (Parseval)', () => {
    fc.assert(
      fc.property(anyLength, fc.nat(), (length, seed) => {
        const samples = noise(seed, length);
        const plan = realFft(length);
        const re = new Float64Array(plan.bins);
        const im = new Float64Array(plan.bins);
        plan.forward(samples, re, im);
        let power = 0;
        for (let k = 0; k < plan.bins; k++) power += (k === 0 || 2 * k === length ? 1 : 2) * (re[k] ** 2 + im[k] ** 2);
        const squares = samples.reduce((sum, value) => sum + value * value, 0);
        assert.ok(Math.abs(power / length - squares) <= 1e-13 * squares);
      }),
      { numRuns: 60 },
    );
  });

  it('of real samples is undone by its inverse, which leaves the bins as they were', () => {
    for (const length of [1, 2, 3, 8, 97, 350, 706]) {
      const samples = noise(length, length);
      const plan = realFft(length);
      const re = new Float64Array(plan.bins);
      const im = new Float64Array(plan.bins);
      plan.forward(samples, re, im);
      const before = re.slice();
      const back = new Float64Array(length);
      plan.inverse(re, im, back);
      near(back, samples, 1e-14, `length ${length}`);
      assert.deepEqual(re, before);
    }
  });

  it('takes no notice, on the way back, of imaginary parts where real samples have none', () => {
    for (const length of [2, 8, 12, 15, 64, 90]) {
      const plan = realFft(length);
      const [re, im] = [noise(1, plan.bins), noise(2, plan.bins)];
      const backFrom = (lowest: number, highest: number): Float64Array => {
        im[0] = lowest;
        if (length % 2 === 0) im[plan.bins - 1] = highest;
        const samples = new Float64Array(length);
        plan.inverse(re, im, samples);
        return samples;
      };
      assert.deepEqual(backFrom(5, -7), backFrom(0, 0), `length ${length}`);
    }
  });

  it('keeps the tables of recent lengths, and drops the oldest ones beyond a million points in all', () => {
    const lengths = [2 ** 19, 2 ** 18, 3 * 2 ** 17];
    const [oldest, recent, last] = lengths.map((length) => fft(length));
    assert.equal(fft(lengths[2]), last);
    assert.equal(fft(lengths[1]), recent);
    assert.notEqual(fft(lengths[0]), oldest);
  });

  it('refuses a length that is no whole number from 1', () => {
    for (const length of [0, -4, 2.5, NaN]) assert.throws(() => fft(length), RangeError);
  });
});
