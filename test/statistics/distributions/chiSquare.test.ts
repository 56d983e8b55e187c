import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { chiSquareQuantile } from '../../../src/statistics/distributions/chiSquare.ts';
import { incompleteGamma } from '../../../src/statistics/distributions/incompleteGamma.ts';
import { close } from '../../published/vectors.ts';
import { degrees, probability } from './arbitraries.ts';

describe('chiSquareQuantile', () => {
  it('leaves its probability below it', () => {
    fc.assert(
      fc.property(probability, degrees, (p, df) => {
        const { lower, upper } = incompleteGamma(df / 2, chiSquareQuantile(p, df) / 2);
        // Each tail tells the other's digits where it is the smaller one.
        if (p < 0.5) close(lower, p, 1e-9);
        else close(upper, 1 - p, 1e-9);
      }),
      { numRuns: 150 },
    );
  });

  it('rises with its probability', () => {
    fc.assert(
      fc.property(probability, probability, degrees, (p, q, df) => {
        const [low, high] = [Math.min(p, q), Math.max(p, q)].map((one) => chiSquareQuantile(one, df));
        // Two p that differ in their last digits only may come out in either order, by a rounding.
        assert.ok(low <= high * (1 + 1e-12));
      }),
      { numRuns: 150 },
    );
  });

  it('with 2 degrees of freedom is that of an exponential distribution of mean 2', () => {
    fc.assert(fc.property(probability, (p) => close(chiSquareQuantile(p, 2), -2 * Math.log1p(-p), 1e-9)));
  });

  it('is 0 and Infinity at the ends, and the mean or nearly in the middle of many degrees of freedom', () => {
    assert.deepEqual([chiSquareQuantile(0, 3), chiSquareQuantile(1, 3)], [0, Infinity]);
    close(chiSquareQuantile(0.5, 1e9), 1e9, 1e-8);
  });

  it('refuses arguments that mean nothing, by name and value', () => {
    assert.throws(() => chiSquareQuantile(0.5, 0), /df must be above 0 and at most 1e12, but is 0/);
    assert.throws(() => chiSquareQuantile(1.2, 3), /p must lie between 0 and 1, but is 1.2/);
  });
});
