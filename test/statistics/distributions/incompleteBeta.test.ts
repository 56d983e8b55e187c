import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  incompleteBeta,
  incompleteBetaAtOdds,
  incompleteBetaInverseOdds,
} from '../../../src/statistics/distributions/incompleteBeta.ts';
import { close } from '../../published/vectors.ts';
import { probability } from './arbitraries.ts';

const shape = fc.double({ min: 0.1, max: 500, noNaN: true });
const place = fc.double({ min: 1e-3, max: 1 - 1e-3, noNaN: true });

describe('incompleteBeta', () => {
  it('is x to the a where b is 1, and the same from the other end', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 40, noNaN: true }), place, (a, x) => {
        close(incompleteBeta(a, 1, x, 1 - x).lower, x ** a, 1e-11);
        close(incompleteBeta(1, a, 1 - x, x).upper, x ** a, 1e-11);
      }),
    );
  });

  it('mirrors: the lower tail of a, b at x is the upper one of b, a at 1 - x', () => {
    fc.assert(
      fc.property(shape, shape, place, (a, b, x) => {
        const [here, there] = [incompleteBeta(a, b, x, 1 - x), incompleteBeta(b, a, 1 - x, x)];
        close(here.lower, there.upper, 1e-10);
        close(here.upper, there.lower, 1e-10);
        close(here.lower + here.upper, 1, 1e-12);
      }),
    );
  });

  it('of whole shapes is the tail of a binomial distribution: I_0.3(3, 5) is P(X >= 3) of 7 draws', () => {
    const choose = [1, 7, 21, 35, 35, 21, 7, 1];
    const tail = [3, 4, 5, 6, 7].reduce((sum, k) => sum + choose[k] * 0.3 ** k * 0.7 ** (7 - k), 0);
    close(incompleteBeta(3, 5, 0.3, 0.7).lower, tail, 1e-14);
  });

  it('is 0 and 1 at the ends, by odds as well', () => {
    assert.deepEqual(incompleteBeta(2, 3, 0, 1), { lower: 0, upper: 1 });
    assert.deepEqual(incompleteBeta(2, 3, 1, 0), { lower: 1, upper: 0 });
    assert.deepEqual(incompleteBetaAtOdds(2, 3, Infinity), { lower: 1, upper: 0 });
    assert.deepEqual(incompleteBetaAtOdds(2, 3, 0), { lower: 0, upper: 1 });
    assert.deepEqual(incompleteBetaAtOdds(2, 2, 1), incompleteBeta(2, 2, 0.5, 0.5));
  });

  it('refuses shapes of 0, and x and y that do not add up to 1', () => {
    assert.throws(() => incompleteBeta(0, 1, 0.5, 0.5), /a and b must be above 0, but are 0 and 1/);
    assert.throws(() => incompleteBeta(1, 0, 0.5, 0.5), /a and b must be above 0/);
    assert.throws(() => incompleteBeta(1, 1, 0.5, 0.6), /add up to 1, but are 0.5 and 0.6/);
    assert.throws(() => incompleteBeta(1, 1, -0.1, 1.1), /must not be negative/);
  });
});

describe('incompleteBetaInverseOdds', () => {
  it('is the odds with the probability in the tail asked for', () => {
    fc.assert(
      fc.property(shape, shape, probability, fc.constantFrom('lower', 'upper'), (a, b, p, tail) => {
        const tails = incompleteBetaAtOdds(a, b, incompleteBetaInverseOdds(a, b, { tail, probability: p }));
        if (p < 0.5) close(tails[tail], p, 1e-9);
        else close(tails[tail === 'lower' ? 'upper' : 'lower'], 1 - p, 1e-9);
      }),
    );
  });

  it('answers probabilities of 0 and 1 with the ends, and results beyond the range of numbers with 0 or Infinity', () => {
    const at = (tail: 'lower' | 'upper', probability: number): number =>
      incompleteBetaInverseOdds(2, 3, { tail, probability });
    assert.deepEqual([at('lower', 0), at('lower', 1), at('upper', 0), at('upper', 1)], [0, Infinity, Infinity, 0]);
    assert.equal(incompleteBetaInverseOdds(0.001, 1, { tail: 'lower', probability: 1e-6 }), 0);
    assert.equal(incompleteBetaInverseOdds(1, 0.001, { tail: 'upper', probability: 1e-6 }), Infinity);
  });
});
