import { requireDf, requireNumber, requireProbability } from './arguments.ts';
import { incompleteBetaAtOdds, incompleteBetaInverseOdds } from './incompleteBeta.ts';

/**
 * P(T > t) of Student's distribution, accurate where it is small. t^2 is F distributed with 1 and df (Abramowitz and
 * Stegun, 26.7).
 *
 * @param t any number; Infinity allowed
 * @param df degrees of freedom, above 0, need not be whole, as Welch's are not
 * @throws RangeError for arguments out of range
 */
export function studentTSurvival(t: number, df: number): number {
  requireDf('df', df);
  requireNumber('t', t);
  const { lower, upper } = incompleteBetaAtOdds(0.5, df / 2, (t * t) / df);
  return t >= 0 ? upper / 2 : 0.5 + lower / 2;
}

/**
 * P(|T| > |t|): the two-sided p of an observed t.
 *
 * @param t any number; Infinity allowed
 * @param df degrees of freedom, above 0
 * @throws RangeError for arguments out of range
 */
export function studentTTwoSided(t: number, df: number): number {
  requireDf('df', df);
  requireNumber('t', t);
  return incompleteBetaAtOdds(0.5, df / 2, (t * t) / df).upper;
}

/**
 * The t of a two-sided interval: P(|T| <= t) = confidence.
 *
 * @param confidence between 0 and 1, for instance 0.95
 * @param df degrees of freedom, above 0
 * @throws RangeError for arguments out of range
 */
export function studentTInterval(confidence: number, df: number): number {
  requireDf('df', df);
  requireProbability('confidence', confidence);
  return Math.sqrt(df * incompleteBetaInverseOdds(0.5, df / 2, { tail: 'lower', probability: confidence }));
}
