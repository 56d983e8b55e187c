import { ifScattered, type Estimate } from './estimate.ts';
import { meanAndVariance } from './summary.ts';

/**
 * Difference of the means of two conditions with their own scatter each (Welch 1947, Biometrika 34; degrees of freedom
 * by Satterthwaite 1946, Biometrics Bulletin 2).
 *
 * se^2 = vA/nA + vB/nB, df = se^4 / ((vA/nA)^2/(nA-1) + (vB/nB)^2/(nB-1))
 *
 * @param a ln(level) of each run of A
 * @param b likewise of B
 * @returns undefined with fewer than 2 runs on a side, or when neither side scatters at all
 */
export function welchT(a: readonly number[], b: readonly number[]): Estimate | undefined {
  if (a.length < 2 || b.length < 2) return undefined;
  const [first, second] = [meanAndVariance(a), meanAndVariance(b)];
  const [partA, partB] = [first.variance / first.n, second.variance / second.n];
  const square = partA + partB;
  if (square === 0) return undefined;
  // The shares are taken first, so that tiny variances do not underflow when squared.
  const [shareA, shareB] = [partA / square, partB / square];
  return ifScattered({
    difference: second.mean - first.mean,
    standardError: Math.sqrt(square),
    df: 1 / (shareA ** 2 / (first.n - 1) + shareB ** 2 / (second.n - 1)),
  });
}
