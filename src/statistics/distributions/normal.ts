import { requireNumber, requireProbability } from './arguments.ts';
import { incompleteGamma, incompleteGammaInverse } from './incompleteGamma.ts';

/**
 * P(Z <= z) of the standard normal distribution, z possibly infinite, through Q(1/2, z^2/2) (Abramowitz and Stegun
 * 26.2.30 and 6.5.17).
 */
export function normalCdf(z: number): number {
  return normalSurvival(-z);
}

/** P(Z > z) of the standard normal distribution, accurate where it is small; z may be infinite. */
export function normalSurvival(z: number): number {
  requireNumber('z', z);
  const { lower, upper } = incompleteGamma(0.5, (z * z) / 2);
  return z >= 0 ? upper / 2 : 0.5 + lower / 2;
}

/** The z with P(Z <= z) = p, p in [0, 1]; -Infinity at 0, Infinity at 1. @throws RangeError for any other p */
export function normalQuantile(p: number): number {
  requireProbability('p', p);
  if (p > 0.75) return normalUpperQuantile(1 - p);
  if (p < 0.25) return -normalUpperQuantile(p);
  const distance = Math.sqrt(2 * incompleteGammaInverse(0.5, { tail: 'lower', probability: Math.abs(2 * p - 1) }));
  return p < 0.5 ? -distance : distance;
}

/** The z with P(Z > z) = q, accurate for small q; q in [0, 1]. @throws RangeError for any other q */
export function normalUpperQuantile(q: number): number {
  requireProbability('q', q);
  if (q >= 0.25) return q === 0.5 ? 0 : -normalQuantile(q);
  return Math.sqrt(2 * incompleteGammaInverse(0.5, { tail: 'upper', probability: 2 * q }));
}
