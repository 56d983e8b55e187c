import { requireDf, requireNumber, requireProbability } from './arguments.ts';
import { incompleteBetaAtOdds, incompleteBetaInverseOdds } from './incompleteBeta.ts';

/** P(X <= x) of the F distribution with df1 (numerator) and df2 (denominator) degrees of freedom; 0 for x <= 0. */
export function fCdf(x: number, df1: number, df2: number): number {
  return tails(x, df1, df2).lower;
}

/** P(X > x) of the F distribution, accurate where it is small. */
export function fSurvival(x: number, df1: number, df2: number): number {
  return tails(x, df1, df2).upper;
}

/** The x with P(X <= x) = p; 0 at p = 0, Infinity at p = 1. */
export function fQuantile(p: number, df1: number, df2: number): number {
  requireDf('df1', df1);
  requireDf('df2', df2);
  requireProbability('p', p);
  return (df2 / df1) * incompleteBetaInverseOdds(df1 / 2, df2 / 2, { tail: 'lower', probability: p });
}

/** The x with P(X > x) = q, accurate for small q. */
export function fUpperQuantile(q: number, df1: number, df2: number): number {
  requireDf('df1', df1);
  requireDf('df2', df2);
  requireProbability('q', q);
  return (df2 / df1) * incompleteBetaInverseOdds(df1 / 2, df2 / 2, { tail: 'upper', probability: q });
}

/** With x = (df2/df1) w, w / (1 + w) is beta distributed (Abramowitz & Stegun 26.6.2). */
function tails(x: number, df1: number, df2: number) {
  requireDf('df1', df1);
  requireDf('df2', df2);
  requireNumber('x', x);
  if (x <= 0) return { lower: 0, upper: 1 };
  return incompleteBetaAtOdds(df1 / 2, df2 / 2, (df1 / df2) * x);
}
