import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import {
  covariance,
  effectiveDf,
  standardUncertainty,
  summedParts,
  type UncertaintyParts,
} from '../../src/units/uncertainty.ts';

const part = fc.record({
  input: fc.constantFrom('a', 'b', 'c', 'd'),
  size: fc.double({ min: -100, max: 100, noNaN: true }),
  df: fc.constantFrom(3, 10, Infinity),
});
const parts: fc.Arbitrary<UncertaintyParts> = fc.uniqueArray(part, { selector: ({ input }) => input, maxLength: 4 });
const number = fc.double({ min: -50, max: 50, noNaN: true });

const near = (a: number, b: number): void => assert.ok(Math.abs(a - b) <= 1e-9 * (1 + Math.abs(a)), `${a}, ${b}`);

const bySize = (of: UncertaintyParts): [string, number][] =>
  of.map(({ input, size }): [string, number] => [input, size]).sort(([one], [other]) => (one < other ? -1 : 1));

describe('summedParts', () => {
  it('is certain of the difference of a quantity from itself', () => {
    fc.assert(
      fc.property(parts, (x) => {
        assert.equal(
          standardUncertainty(
            summedParts([
              [1, x],
              [-1, x],
            ]),
          ),
          0,
        );
      }),
    );
  });

  it('grows with a factor, and does not ask for the order of the terms', () => {
    fc.assert(
      fc.property(parts, parts, number, number, (x, y, a, b) => {
        near(standardUncertainty(summedParts([[a, x]])), Math.abs(a) * standardUncertainty(x));
        const one = summedParts([
          [a, x],
          [b, y],
        ]);
        const other = summedParts([
          [b, y],
          [a, x],
        ]);
        assert.deepEqual(
          bySize(one).map(([input]) => input),
          bySize(other).map(([input]) => input),
        );
        bySize(one).forEach(([, size], k) => near(size, bySize(other)[k][1]));
      }),
    );
  });

  it('has the variance of a sum: both variances and twice the covariance', () => {
    fc.assert(
      fc.property(parts, parts, number, number, (x, y, a, b) => {
        const sum = standardUncertainty(
          summedParts([
            [a, x],
            [b, y],
          ]),
        );
        const [u, v] = [standardUncertainty(x), standardUncertainty(y)];
        const variance = a * a * u * u + b * b * v * v + 2 * a * b * covariance(x, y);
        assert.ok(Math.abs(sum ** 2 - variance) <= 1e-7 * (1 + a * a * u * u + b * b * v * v));
      }),
    );
  });
});

describe('effectiveDf', () => {
  it('is that of the only input, and never below the smallest', () => {
    assert.equal(effectiveDf([{ input: 'a', size: 2, df: 7 }]), 7);
    assert.equal(effectiveDf([{ input: 'a', size: 2, df: Infinity }]), Infinity);
    assert.equal(effectiveDf([]), Infinity);
    fc.assert(
      fc.property(parts, (x) => {
        const least = Math.min(...x.map(({ df }) => df));
        assert.ok(effectiveDf(x) >= least * (1 - 1e-9) || standardUncertainty(x) === 0);
      }),
    );
  });
});
