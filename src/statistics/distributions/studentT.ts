import { requireDf, requireNumber, requireProbability } from './arguments.ts';
import { incompleteBetaAtOdds, incompleteBetaInverseOdds } from './incompleteBeta.ts';

/** P(T <= t) of Student's distribution with `df` degrees of freedom (need not be whole, as Welch's are not). */
export function studentTCdf(t: number, df: number): number {
  return studentTSurvival(-t, df);
}

/** P(T > t) of Student's distribution, accurate where it is small. t^2 is F distributed with 1 and df. */
export function studentTSurvival(t: number, df: number): number {
  requireDf('df', df);
  requireNumber('t', t);
  const { lower, upper } = incompleteBetaAtOdds(0.5, df / 2, (t * t) / df);
  return t >= 0 ? upper / 2 : 0.5 + lower / 2;
}

/** P(|T| > |t|): the two-sided p of an observed t. */
export function studentTTwoSided(t: number, df: number): number {
  requireDf('df', df);
  requireNumber('t', t);
  return incompleteBetaAtOdds(0.5, df / 2, (t * t) / df).upper;
}

/** The t with P(T <= t) = p; -Infinity at 0, Infinity at 1. */
export function studentTQuantile(p: number, df: number): number {
  requireDf('df', df);
  requireProbability('p', p);
  if (p > 0.75) return studentTUpperQuantile(1 - p, df);
  if (p < 0.25) return -studentTUpperQuantile(p, df);
  const odds = incompleteBetaInverseOdds(0.5, df / 2, { tail: 'lower', probability: Math.abs(2 * p - 1) });
  return p < 0.5 ? -Math.sqrt(df * odds) : Math.sqrt(df * odds);
}

/** The t with P(T > t) = q, accurate for small q. */
export function studentTUpperQuantile(q: number, df: number): number {
  requireDf('df', df);
  requireProbability('q', q);
  if (q >= 0.25) return q === 0.5 ? 0 : -studentTQuantile(q, df);
  return Math.sqrt(df * incompleteBetaInverseOdds(0.5, df / 2, { tail: 'upper', probability: 2 * q }));
}

/**
 * The t of a two-sided interval: P(|T| <= t) = confidence.
 * @param confidence between 0 and 1, for instance 0.95
 */
export function studentTInterval(confidence: number, df: number): number {
  requireDf('df', df);
  requireProbability('confidence', confidence);
  return Math.sqrt(df * incompleteBetaInverseOdds(0.5, df / 2, { tail: 'lower', probability: confidence }));
}
