import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { chiSquareCdf, chiSquareQuantile, chiSquareSurvival, chiSquareUpperQuantile } from '../../src/statistics/distributions/chiSquare.ts';
import { fCdf, fQuantile, fSurvival, fUpperQuantile } from '../../src/statistics/distributions/f.ts';
import { lnGamma } from '../../src/statistics/distributions/gamma.ts';
import { noncentralTCdf, noncentralTQuantile, noncentralTSurvival } from '../../src/statistics/distributions/noncentralT.ts';
import { normalCdf, normalQuantile, normalSurvival, normalUpperQuantile } from '../../src/statistics/distributions/normal.ts';
import { studentTCdf, studentTQuantile, studentTSurvival, studentTUpperQuantile } from '../../src/statistics/distributions/studentT.ts';

// Source of the values: mpmath 1.2.1 at 25 to 40 digits, each compared with scipy 1.10.1 where scipy holds its digits
// (scripts/reference/make-distribution-vectors.py).
interface Reference {
  readonly lnGamma: [x: number, value: number][];
  readonly normal: {
    readonly tails: [z: number, lower: number, upper: number][];
    readonly upperQuantiles: [q: number, z: number][];
  };
  readonly chiSquare: {
    readonly tails: [x: number, df: number, lower: number, upper: number][];
    readonly quantiles: [side: 'lower' | 'upper', p: number, df: number, x: number][];
  };
  readonly studentT: {
    readonly tails: [t: number, df: number, lower: number, upper: number][];
    readonly upperQuantiles: [q: number, df: number, t: number][];
  };
  readonly f: {
    readonly tails: [x: number, df1: number, df2: number, lower: number, upper: number][];
    readonly quantiles: [side: 'lower' | 'upper', p: number, df1: number, df2: number, x: number][];
  };
  readonly noncentralT: {
    readonly tails: [t: number, df: number, delta: number, lower: number, upper: number][];
    readonly quantiles: [p: number, df: number, delta: number, t: number][];
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
  it('ln gamma, to 2e-15 relative, its zeros at 1 and 2 included', () => {
    closeAll(
      reference.lnGamma.map(([x, want]) => ({ at: [x], got: lnGamma(x), want })),
      2e-15,
    );
  });

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
    const tails = reference.chiSquare.tails.flatMap(([x, df, lower, upper]) => [
      { at: ['cdf', x, df], got: chiSquareCdf(x, df), want: lower },
      { at: ['survival', x, df], got: chiSquareSurvival(x, df), want: upper },
    ]);
    const quantiles = reference.chiSquare.quantiles.map(([side, p, df, want]) => {
      const quantile = side === 'lower' ? chiSquareQuantile : chiSquareUpperQuantile;
      return { at: [side, p, df], got: quantile(p, df), want };
    });
    closeAll([...tails, ...quantiles], 1e-12);
  });

  it("Student's t, to 1e-12 relative in both tails, for 0.5 to 1e9 degrees of freedom", () => {
    const tails = reference.studentT.tails.flatMap(([t, df, lower, upper]) => [
      { at: ['cdf', t, df], got: studentTCdf(t, df), want: lower },
      { at: ['survival', t, df], got: studentTSurvival(t, df), want: upper },
      { at: ['cdf', -t, df], got: studentTCdf(-t, df), want: upper },
    ]);
    const quantiles = reference.studentT.upperQuantiles.flatMap(([q, df, t]) => [
      { at: ['upper quantile', q, df], got: studentTUpperQuantile(q, df), want: t },
      { at: ['quantile', q, df], got: studentTQuantile(q, df), want: -t },
    ]);
    closeAll([...tails, ...quantiles], 1e-12);
  });

  it('F, to 1e-12 relative in both tails, for 0.5 to 1e7 degrees of freedom', () => {
    const tails = reference.f.tails.flatMap(([x, df1, df2, lower, upper]) => [
      { at: ['cdf', x, df1, df2], got: fCdf(x, df1, df2), want: lower },
      { at: ['survival', x, df1, df2], got: fSurvival(x, df1, df2), want: upper },
    ]);
    const quantiles = reference.f.quantiles.map(([side, p, df1, df2, want]) => {
      const quantile = side === 'lower' ? fQuantile : fUpperQuantile;
      return { at: [side, p, df1, df2], got: quantile(p, df1, df2), want };
    });
    closeAll([...tails, ...quantiles], 1e-12);
  });

  it('noncentral t, to 1e-12 relative in both tails, however small they are', () => {
    const tails = reference.noncentralT.tails.flatMap(([t, df, delta, lower, upper]) => [
      { at: ['cdf', t, df, delta], got: noncentralTCdf(t, df, delta), want: lower },
      { at: ['survival', t, df, delta], got: noncentralTSurvival(t, df, delta), want: upper },
    ]);
    const quantiles = reference.noncentralT.quantiles.map(([p, df, delta, want]) => ({
      at: ['quantile', p, df, delta],
      got: noncentralTQuantile(p, df, delta),
      want,
    }));
    closeAll([...tails, ...quantiles], 1e-12);
  });
});
