import { ifScattered, type Estimate } from './estimate.ts';
import { meanAndVariance } from './summary.ts';

/**
 * Mean difference of pairs of runs, the k-th of B less the k-th of A (Student 1908, Biometrika 6).
 *
 * @param a ln(level) of each run of A
 * @param b likewise of B, in the order of the pairs
 * @returns undefined when the counts differ, with fewer than 2 pairs, or when the differences do not scatter at all
 */
export function pairedT(a: readonly number[], b: readonly number[]): Estimate | undefined {
  if (a.length !== b.length || a.length < 2) return undefined;
  const { n, mean, variance } = meanAndVariance(b.map((value, k) => value - a[k]));
  return ifScattered({ difference: mean, standardError: Math.sqrt(variance / n), df: n - 1 });
}
