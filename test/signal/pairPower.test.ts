import { strict as assert } from 'node:assert';
import { fft } from '../../src/signal/fft.ts';
import { addPairPower, pairPlan } from '../../src/signal/pairPower.ts';
import { near, record } from '../published/vectors.ts';

// Lengths whose first and last passes are each of those written out: 4 and 8 first, 4, 5 and 8 last.
const lengths = [16, 20, 32, 40, 64, 96, 256, 512, 700, 1000, 2560];

describe('addPairPower', () => {
  for (const length of lengths) {
    it(`adds |Z|^2 of the windowed segments of ${length} samples, less the means given, to what is there`, () => {
      const samples = record(length, 2 * length);
      const shape = record(3, length);
      const [a, b] = [
        { start: 3, mean: 0.25 },
        { start: length - 1, mean: -0.5 },
      ];
      const plan = pairPlan(length);
      assert.ok(plan);
      const power = new Float64Array(length).fill(7);
      addPairPower(
        plan,
        samples,
        a,
        b,
        shape,
        Array.from({ length: 4 }, () => new Float64Array(length)),
        power,
      );
      const re = shape.map((factor, n) => factor * (samples[a.start + n] - a.mean));
      const im = shape.map((factor, n) => factor * (samples[b.start + n] - b.mean));
      fft(length).forward(re, im);
      near(
        power,
        re.map((value, k) => 7 + value ** 2 + im[k] ** 2),
        1e-14,
      );
    });
  }
});

describe('pairPlan', () => {
  it('is there for a length of two passes or more that begins with 4 or 8 and ends with 4, 5 or 8', () => {
    for (const length of [1, 2, 4, 8, 3, 15, 6, 12, 17, 34, 350])
      assert.equal(pairPlan(length), undefined, `${length}`);
    for (const length of lengths) assert.ok(pairPlan(length), `${length}`);
  });
});
