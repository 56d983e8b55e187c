import { ratioInterval, type Estimate, type RatioInterval } from './estimate.ts';
import { welchT } from './welchT.ts';
import { meanAndVariance } from './summary.ts';

/** The ratio of two single runs. It speaks of these two recordings, never of how other runs would come out. */
export interface BlockInterval extends RatioInterval, Estimate {
  readonly ratio: number;
}

/**
 * Interval of the amplitude ratio of two single runs from the mean squares of their blocks (5 s each is usual).
 *
 * se^2(ln rms) = var(q) / (4 nb mean(q)^2) by the delta method (Casella and Berger, Statistical Inference, 5.5.4), a
 * t interval with Welch's degrees of freedom. Blocks instead of the chi-square theory of the spectrum, because roads
 * and machines are not stationary.
 *
 * @param blocksA mean square of each block of A, in unit^2; at least 2, none negative and not all 0
 * @param blocksB likewise of B
 * @param confidence two-sided, between 0 and 1
 * @returns ratio B/A of amplitudes; undefined when there are too few blocks or no scatter
 */
export function blockInterval(
  blocksA: readonly number[],
  blocksB: readonly number[],
  confidence: number,
): BlockInterval | undefined {
  if (blocksA.length < 2 || blocksB.length < 2) return undefined;
  const [a, b] = [meanAndVariance(blocksA), meanAndVariance(blocksB)];
  if (!(a.mean > 0 && b.mean > 0 && a.mean < Infinity && b.mean < Infinity)) return undefined;
  // Dividing by the mean makes the scatter relative; half of it is the scatter of ln rms.
  const half = (blocks: readonly number[], mean: number): number[] => blocks.map((q) => q / mean / 2);
  const scatter = welchT(half(blocksA, a.mean), half(blocksB, b.mean));
  if (scatter === undefined) return undefined;
  const estimate = { ...scatter, difference: Math.log(b.mean / a.mean) / 2 };
  return { ...estimate, ratio: Math.exp(estimate.difference), ...ratioInterval(estimate, confidence) };
}
