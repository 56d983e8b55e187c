import { requireDf, requireProbability } from './arguments.ts';
import { incompleteGammaInverse } from './incompleteGamma.ts';

/** Quantiles asked for lately: the limits of a spectrum want the same four for every run of a set. */
const known = new Map<string, number>();
const mostKnown = 64;

/**
 * Quantile of the chi-square distribution (Abramowitz and Stegun, 26.4, by the incomplete gamma function).
 *
 * @param p probability of what lies below, in [0, 1]
 * @param df degrees of freedom, above 0, need not be whole
 * @returns the x with P(X <= x) = p; 0 at p = 0, Infinity at p = 1
 * @throws RangeError for arguments out of range
 */
export function chiSquareQuantile(p: number, df: number): number {
  requireDf('df', df);
  requireProbability('p', p);
  const key = `${p} ${df}`;
  let found = known.get(key);
  if (found === undefined) {
    if (known.size >= mostKnown) known.clear();
    known.set(key, (found = 2 * incompleteGammaInverse(df / 2, { tail: 'lower', probability: p })));
  }
  return found;
}
