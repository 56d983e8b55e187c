import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  gammaKernel,
  incompleteGamma,
  incompleteGammaInverse,
} from '../../../src/statistics/distributions/incompleteGamma.ts';
import { close } from '../../published/vectors.ts';
import { probability } from './arbitraries.ts';

const shape = fc.double({ min: 0.05, max: 2000, noNaN: true });
const ratio = fc.double({ min: 0.05, max: 4, noNaN: true });

describe('incompleteGamma', () => {
  it('of shape 1 is the exponential distribution', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 600, noNaN: true }), (x) => {
        const { lower, upper } = incompleteGamma(1, x);
        close(lower, -Math.expm1(-x), 1e-13);
        close(upper, Math.exp(-x), 1e-12);
      }),
    );
  });

  it('steps from shape to shape: P(a + 1, x) = P(a, x) - x^a e^-x / Gamma(a + 1)', () => {
    fc.assert(
      fc.property(shape, ratio, (a, times) => {
        const x = a * times;
        const step = gammaKernel(a, x) / a;
        close(incompleteGamma(a + 1, x).upper, incompleteGamma(a, x).upper + step, 1e-11);
        close(incompleteGamma(a, x).lower, incompleteGamma(a + 1, x).lower + step, 1e-11);
      }),
    );
  });

  it('is 0 and 1 at the ends', () => {
    assert.deepEqual(incompleteGamma(3, 0), { lower: 0, upper: 1 });
    assert.deepEqual(incompleteGamma(3, Infinity), { lower: 1, upper: 0 });
  });

  it('refuses arguments out of range, by name and value', () => {
    assert.throws(() => incompleteGamma(0, 1), /a must be above 0 and at most 1e12, but is 0/);
    assert.throws(() => incompleteGamma(1.1e12, 1), /a must be above 0 and at most 1e12/);
    assert.doesNotThrow(() => incompleteGamma(1e12, 1));
    assert.throws(() => incompleteGamma(1, -1), /x must not be negative, but is -1/);
    assert.throws(() => incompleteGamma(1, NaN), /x must be a number/);
  });
});

describe('incompleteGammaInverse', () => {
  it('is the point with the probability in the tail asked for', () => {
    fc.assert(
      fc.property(shape, probability, fc.constantFrom('lower', 'upper'), (a, p, tail) => {
        const tails = incompleteGamma(a, incompleteGammaInverse(a, { tail, probability: p }));
        if (p < 0.5) close(tails[tail], p, 1e-10);
        else close(tails[tail === 'lower' ? 'upper' : 'lower'], 1 - p, 1e-10);
      }),
    );
  });

  it('answers probabilities of 0 and 1 with the ends, and results beyond the range of numbers with 0', () => {
    const at = (tail: 'lower' | 'upper', probability: number): number =>
      incompleteGammaInverse(2, { tail, probability });
    assert.deepEqual([at('lower', 0), at('lower', 1), at('upper', 0), at('upper', 1)], [0, Infinity, Infinity, 0]);
    assert.equal(incompleteGammaInverse(0.001, { tail: 'lower', probability: 1e-6 }), 0);
  });
});
