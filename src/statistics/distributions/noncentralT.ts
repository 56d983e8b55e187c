import { requireDf, requireFinite } from './arguments.ts';
import { gammaKernel } from './incompleteGamma.ts';
import { normalCdf } from './normal.ts';

/**
 * P(T <= t) of the noncentral t distribution, T = (Z + delta) / S with S = sqrt(chi-square_df / df). Formed as the
 * mean of Phi(t S - delta) over S, by the trapezoidal rule in u = ln S. Every term is positive, so both tails keep
 * their relative accuracy, and for an analytic integrand the rule converges exponentially (Trefethen and Weideman
 * 2014, SIAM Review 56, "The exponentially convergent trapezoidal rule").
 *
 * @param t finite
 * @param df degrees of freedom, above 0, need not be whole
 * @param delta noncentrality, from -200 to 200
 * @throws RangeError for other arguments
 */
export function noncentralTCdf(t: number, df: number, delta: number): number {
  requireAll(t, df, delta);
  return Math.min(
    1,
    meanOverScale(df, delta, (s) => normalCdf(t * s - delta)),
  );
}

/** P(T > t) of the noncentral t distribution, accurate where it is small; arguments t, df and delta as of `noncentralTCdf`. */
export function noncentralTSurvival(t: number, df: number, delta: number): number {
  return noncentralTCdf(-t, df, -delta);
}

function requireAll(t: number, df: number, delta: number): void {
  requireFinite('t', t);
  requireDf('df', df);
  // The rule's step shrinks with delta; far below this limit the answer has become 0 or 1 for any use.
  if (!(Math.abs(delta) <= 200)) throw new RangeError(`delta must lie between -200 and 200, but is ${delta}`);
}

/**
 * The mean of g(S) over S = sqrt(chi-square_df / df). The density of u = ln S is 2 (y/2)^(df/2) e^(-y/2) / Gamma(df/2)
 * with y = df e^(2u).
 */
function meanOverScale(df: number, delta: number, g: (s: number) => number): number {
  const term = (u: number): number => {
    const s = Math.exp(u);
    return 2 * gammaKernel(df / 2, (df * s * s) / 2) * g(s);
  };
  // The widest step that still resolves the chi density (width 1/sqrt(2 df)) and the step of Phi (width 1/delta).
  const width = Math.min(0.1, 0.35 / Math.sqrt(2 * df), 0.4 / Math.max(1, Math.abs(delta)));
  // Beyond these ends the chi density is below the smallest number.
  const depth = 1500 / df;
  const top = Math.log1p(2 * depth + 2 * Math.sqrt(depth)) / 2;
  const bottom = -depth / 2 - Math.sqrt(depth);
  let sum = 0;
  for (let u = top, last = 0; u >= bottom; u -= width) {
    const value = term(u);
    sum += value;
    if (value < last && value < 1e-18 * sum) break;
    last = value;
  }
  return sum * width;
}
