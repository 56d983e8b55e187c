import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { chiSquareQuantile } from '../../src/statistics/distributions/chiSquare.ts';
import { incompleteGamma } from '../../src/statistics/distributions/incompleteGamma.ts';
import {
  normalCdf,
  normalQuantile,
  normalSurvival,
  normalUpperQuantile,
} from '../../src/statistics/distributions/normal.ts';
import { studentTInterval, studentTSurvival, studentTTwoSided } from '../../src/statistics/distributions/studentT.ts';

// Source of the values: mpmath 1.2.1 at 25 to 40 digits, each compared with scipy 1.10.1 where scipy holds its digits
// (scripts/reference/makeDistributionVectors.py).
interface Reference {
  readonly normal: {
    readonly tails: [z: number, lower: number, upper: number][];
    readonly upperQuantiles: [q: number, z: number][];
  };
  readonly chiSquare: {
    readonly tails: [x: number, df: number, lower: number, upper: number][];
    readonly quantiles: [p: number, df: number, x: number][];
  };
  readonly studentT: {
    readonly tails: [t: number, df: number, lower: number, upper: number][];
    readonly upperQuantiles: [q: number, df: number, t: number][];
  };
}

const reference = JSON.parse(readFileSync(new URL('vectors/distributions.json', import.meta.url), 'utf8')) as Reference;

/** Fails with the arguments of every value that is further off than a relative tolerance. */
function closeAll(
  rows: readonly { readonly at: readonly unknown[]; readonly got: number; readonly want: number }[],
  tolerance: number,
): void {
  assert.ok(rows.length > 10, 'there are values to check');
  const off = rows.filter(({ got, want }) => !(Math.abs(got - want) <= tolerance * Math.abs(want)));
  assert.deepEqual(
    off.map(({ at, got, want }) => `(${at.join(', ')}): ${got}, wanted ${want}, relative ${Math.abs(got / want - 1)}`),
    [],
  );
}

describe('the distributions agree with values computed at 25 digits and more', () => {
  it('the normal distribution, to 1e-12 relative in both tails', () => {
    const tails = reference.normal.tails.flatMap(([z, lower, upper]) => [
      { at: ['cdf', z], got: normalCdf(z), want: lower },
      { at: ['survival', z], got: normalSurvival(z), want: upper },
      { at: ['cdf', -z], got: normalCdf(-z), want: upper },
    ]);
    const quantiles = reference.normal.upperQuantiles.flatMap(([q, z]) => [
      { at: ['upper quantile', q], got: normalUpperQuantile(q), want: z },
      { at: ['quantile', q], got: normalQuantile(q), want: -z },
    ]);
    closeAll([...tails, ...quantiles], 1e-12);
  });

  it('chi-square, to 1e-12 relative in both tails, for 0.1 to 10 000 degrees of freedom', () => {
    const tails = reference.chiSquare.tails.flatMap(([x, df, lower, upper]) => {
      const got = incompleteGamma(df / 2, x / 2);
      return [
        { at: ['lower', x, df], got: got.lower, want: lower },
        { at: ['upper', x, df], got: got.upper, want: upper },
      ];
    });
    const quantiles = reference.chiSquare.quantiles.map(([p, df, want]) => ({
      at: [p, df],
      got: chiSquareQuantile(p, df),
      want,
    }));
    closeAll([...tails, ...quantiles], 1e-12);
  });

  it("Student's t, to 1e-12 relative in both tails, for 0.5 to 1e9 degrees of freedom", () => {
    const tails = reference.studentT.tails.flatMap(([t, df, lower, upper]) => [
      { at: ['survival', t, df], got: studentTSurvival(t, df), want: upper },
      { at: ['survival', -t, df], got: studentTSurvival(-t, df), want: lower },
      { at: ['two-sided', t, df], got: studentTTwoSided(-t, df), want: 2 * upper },
    ]);
    // Nearer to 1 the confidence itself has lost the digits of its tail.
    const quantiles = reference.studentT.upperQuantiles
      .filter(([q]) => q > 1e-3)
      .map(([q, df, t]) => ({ at: ['interval', q, df], got: studentTInterval(1 - 2 * q, df), want: t }));
    closeAll([...tails, ...quantiles], 1e-12);
  });
});
