import { ifScattered, type Estimate } from './estimate.ts';
import { meanAndVariance } from './summary.ts';

/**
 * Mean of the differences within pairs (blocks AB, BA of neighbouring runs), for conditions that wander
 * from block to block (Student 1908).
 *
 * @param a, b ln(level); a[k] and b[k] form the k-th pair
 * @returns undefined when the counts differ, with fewer than 2 pairs, or when the differences do not scatter at all
 */
export function pairedT(a: readonly number[], b: readonly number[]): Estimate | undefined {
  if (a.length !== b.length || a.length < 2) return undefined;
  const { n, mean, variance } = meanAndVariance(b.map((value, k) => value - a[k]));
  return ifScattered({ difference: mean, standardError: Math.sqrt(variance / n), df: n - 1 });
}
