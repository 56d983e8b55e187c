import { requireDf, requireProbability } from './arguments.ts';
import { incompleteGammaInverse } from './incompleteGamma.ts';

/** The x with P(X <= x) = p; 0 at p = 0, Infinity at p = 1. */
export function chiSquareQuantile(p: number, df: number): number {
  requireDf('df', df);
  requireProbability('p', p);
  return 2 * incompleteGammaInverse(df / 2, { tail: 'lower', probability: p });
}
