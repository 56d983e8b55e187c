import { ifScattered, type Estimate } from './estimate.ts';
import { meanAndVariance } from './summary.ts';

/**
 * Difference of the means of two conditions that scatter alike (Student 1908, Biometrika 6): the variance is pooled
 * over both.
 *
 * @param a ln(level) of each run of A
 * @param b likewise of B
 * @returns undefined with no run on a side, fewer than 3 in all, or no scatter at all
 */
export function pooledT(a: readonly number[], b: readonly number[]): Estimate | undefined {
  const df = a.length + b.length - 2;
  if (a.length < 1 || b.length < 1 || df < 1) return undefined;
  const [first, second] = [meanAndVariance(a), meanAndVariance(b)];
  const variance = (first.variance * (first.n - 1) + second.variance * (second.n - 1)) / df;
  return ifScattered({
    difference: second.mean - first.mean,
    standardError: Math.sqrt(variance * (1 / first.n + 1 / second.n)),
    df,
  });
}
