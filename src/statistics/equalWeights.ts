import type { Estimate } from './estimate.ts';

/**
 * The mean of independent differences with equal weights: each stratum, or study, counts as much as any other, however
 * well it is known. Variance sum se^2 / S^2; degrees of freedom by Satterthwaite (1946) over the strata,
 * (sum se^2)^2 / sum (se^4 / df).
 *
 * Weights by the inverse of estimated variances are not offered: at few runs a stratum their intervals cover far less
 * than they state.
 *
 * @param estimates one or more
 */
export function equallyWeighted(estimates: readonly Estimate[]): Estimate {
  const total = (of: (estimate: Estimate) => number): number => estimates.reduce((sum, one) => sum + of(one), 0);
  const variance = total(({ standardError }) => standardError ** 2);
  return {
    difference: total(({ difference }) => difference) / estimates.length,
    standardError: Math.sqrt(variance) / estimates.length,
    df: variance ** 2 / total(({ standardError, df }) => (standardError ** 2) ** 2 / df),
  };
}
