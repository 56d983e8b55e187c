import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { factorsOf, makeSmoothPlan, transformSmooth } from '../../src/signal/stockham.ts';
import { near, noise } from '../published/vectors.ts';

const product = (factors: readonly number[]): number => factors.reduce((all, factor) => all * factor, 1);

describe('factorsOf', () => {
  it('parts a length into radices up to 43 and the product of its larger primes, with a 2 only where it must be', () => {
    const primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43];
    for (let length = 1; length <= 3000; length++) {
      const { radices, rest } = factorsOf(length);
      assert.equal(product(radices) * rest, length);
      assert.ok(
        primes.every((prime) => rest % prime !== 0),
        `nothing is left of ${length} that has a pass`,
      );
      assert.ok(
        radices.every((radix) => radix === 4 || radix === 8 || primes.includes(radix)),
        `each radix of ${length} has a pass`,
      );
      assert.ok(radices.filter((radix) => radix === 2).length <= 1, `${length} has one 2 at most`);
    }
  });

  it('begins with a power of two and ends with a 5 or a power of two, where the length has them', () => {
    const radicesOf = (length: number): readonly number[] => factorsOf(length).radices;
    assert.deepEqual(radicesOf(1), []);
    assert.deepEqual(radicesOf(2), [2]);
    assert.deepEqual(radicesOf(16), [4, 4]);
    assert.deepEqual(radicesOf(32), [8, 4]);
    assert.deepEqual(radicesOf(512), [8, 8, 8]);
    assert.deepEqual(radicesOf(1000), [8, 5, 5, 5]);
    assert.deepEqual(radicesOf(96), [8, 3, 4]);
    assert.deepEqual(radicesOf(1001), [13, 11, 7]);
    assert.deepEqual(radicesOf(43 * 35), [43, 7, 5]);
    assert.deepEqual(factorsOf(699), { radices: [3], rest: 233 });
    assert.deepEqual(factorsOf(16 * 47 * 53), { radices: [4, 4], rest: 47 * 53 });
  });
});

describe('transformSmooth', () => {
  it('equals the defining sum with each radix first, in the middle and last', () => {
    const orders = [2, 3, 4, 5, 7, 8, 11, 13, 17, 43].flatMap((radix) => [
      [radix],
      [radix, 3],
      [4, radix],
      [3, radix, 5],
    ]);
    for (const factors of orders) {
      const length = product(factors);
      const [re, im] = [noise(length, length), noise(length + 1, length)];
      const expected = Array.from({ length }, (_, k) => {
        let [sumRe, sumIm] = [0, 0];
        for (let n = 0; n < length; n++) {
          const angle = (-2 * Math.PI * ((k * n) % length)) / length;
          sumRe += re[n] * Math.cos(angle) - im[n] * Math.sin(angle);
          sumIm += re[n] * Math.sin(angle) + im[n] * Math.cos(angle);
        }
        return [sumRe, sumIm];
      });
      const [spareRe, spareIm] = [new Float64Array(length), new Float64Array(length)];
      const spare = transformSmooth(makeSmoothPlan(length, factors), re, im, spareRe, spareIm);
      assert.equal(spare, factors.length % 2 === 1);
      const [foundRe, foundIm] = spare ? [spareRe, spareIm] : [re, im];
      near(
        [...foundRe].flatMap((value, k) => [value, foundIm[k]]),
        expected.flat(),
        1e-14,
        `radices ${factors.join(' x ')}`,
      );
    }
  });

  it('of a unit impulse is a turning circle of height 1', () => {
    fc.assert(
      fc.property(fc.constantFrom(6, 15, 32, 77, 360), fc.nat(), (length, seed) => {
        const at = seed % length;
        const [re, im] = [new Float64Array(length), new Float64Array(length)];
        re[at] = 1;
        const [spareRe, spareIm] = [new Float64Array(length), new Float64Array(length)];
        const plan = makeSmoothPlan(length, factorsOf(length).radices);
        const [foundRe, foundIm] = transformSmooth(plan, re, im, spareRe, spareIm) ? [spareRe, spareIm] : [re, im];
        foundRe.forEach((value, k) => {
          const angle = (-2 * Math.PI * ((k * at) % length)) / length;
          assert.ok(Math.hypot(value - Math.cos(angle), foundIm[k] - Math.sin(angle)) < 4e-15);
        });
      }),
    );
  });
});
