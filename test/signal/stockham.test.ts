import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { makeSmoothPlan, oddRadices, radices, transformSmooth } from '../../src/signal/stockham.ts';
import { near, noise } from '../published/vectors.ts';

const product = (factors: readonly number[]): number => factors.reduce((all, factor) => all * factor, 1);

describe('radices', () => {
  it('have the length as their product, few as they are, or there are none for a prime above 13', () => {
    for (let length = 1; length <= 3000; length++) {
      const factors = radices(length);
      let rest = length;
      for (const prime of [2, 3, 5, 7, 11, 13]) while (rest % prime === 0) rest /= prime;
      if (rest > 1) assert.equal(factors, undefined);
      else assert.equal(product(factors ?? []), length);
      assert.ok((factors ?? []).filter((factor) => factor === 2).length <= 1);
    }
  });

  it('begin with a power of two and end with a 5 or a power of two, where the length has them', () => {
    assert.deepEqual(radices(1), []);
    assert.deepEqual(radices(2), [2]);
    assert.deepEqual(radices(16), [4, 4]);
    assert.deepEqual(radices(32), [8, 4]);
    assert.deepEqual(radices(512), [8, 8, 8]);
    assert.deepEqual(radices(1000), [8, 5, 5, 5]);
    assert.deepEqual(radices(96), [8, 3, 4]);
    assert.deepEqual(radices(1001), [13, 11, 7]);
    assert.deepEqual(oddRadices(1440), [3, 3, 5]);
    assert.equal(oddRadices(34), undefined);
  });
});

describe('transformSmooth', () => {
  it('equals the defining sum with each radix first, in the middle and last', () => {
    const orders = [2, 3, 4, 5, 7, 8, 11, 13].flatMap((radix) => [[radix], [radix, 3], [4, radix], [3, radix, 5]]);
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
        const plan = makeSmoothPlan(length, radices(length) ?? []);
        const [foundRe, foundIm] = transformSmooth(plan, re, im, spareRe, spareIm) ? [spareRe, spareIm] : [re, im];
        foundRe.forEach((value, k) => {
          const angle = (-2 * Math.PI * ((k * at) % length)) / length;
          assert.ok(Math.hypot(value - Math.cos(angle), foundIm[k] - Math.sin(angle)) < 4e-15);
        });
      }),
    );
  });
});
