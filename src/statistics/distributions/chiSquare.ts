import { requireDf, requireNumber, requireProbability } from './arguments.ts';
import { incompleteGamma, incompleteGammaInverse } from './incompleteGamma.ts';

/** P(X <= x) of the chi-square distribution with `df` degrees of freedom (need not be whole); 0 for x <= 0. */
export function chiSquareCdf(x: number, df: number): number {
  requireDf('df', df);
  requireNumber('x', x);
  return x <= 0 ? 0 : incompleteGamma(df / 2, x / 2).lower;
}

/** P(X > x) of the chi-square distribution, accurate where it is small. */
export function chiSquareSurvival(x: number, df: number): number {
  requireDf('df', df);
  requireNumber('x', x);
  return x <= 0 ? 1 : incompleteGamma(df / 2, x / 2).upper;
}

/** The x with P(X <= x) = p; 0 at p = 0, Infinity at p = 1. */
export function chiSquareQuantile(p: number, df: number): number {
  requireDf('df', df);
  requireProbability('p', p);
  return 2 * incompleteGammaInverse(df / 2, { tail: 'lower', probability: p });
}

/** The x with P(X > x) = q, accurate for small q. */
export function chiSquareUpperQuantile(q: number, df: number): number {
  requireDf('df', df);
  requireProbability('q', q);
  return 2 * incompleteGammaInverse(df / 2, { tail: 'upper', probability: q });
}
