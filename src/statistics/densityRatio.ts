import { ratioInterval } from './estimate.ts';
import { meanAndVariance } from './summary.ts';
import { welchT } from './welchT.ts';

/** B/A of spectral densities, bin by bin, with the interval of each bin by itself. */
export interface RatioOfDensities {
  /** Ratio of the geometric means over the runs, of mean square. */
  readonly ratio: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/**
 * Ratio of densities in each bin by Welch's t on their logarithms, the run as the unit of evidence as everywhere.
 * The intervals are pointwise: at 95 % about one bin in twenty lies off by chance, so they show where to look and
 * settle nothing.
 *
 * @param a one density a run of A, all in one unit; the bins that all densities have are compared
 * @param b likewise of B
 * @param confidence two-sided, between 0 and 1
 * @returns B/A of mean square; undefined with fewer than 3 runs a side, or when a bin holds nothing at all
 */
export function densityRatio(
  a: readonly Float64Array[],
  b: readonly Float64Array[],
  confidence: number,
): RatioOfDensities | undefined {
  if (a.length < 3 || b.length < 3) return undefined;
  const bins = Math.min(...[...a, ...b].map(({ length }) => length));
  const [ratio, low, high] = Array.from({ length: 3 }, () => new Float64Array(bins));
  for (let k = 0; k < bins; k++) {
    const [lnA, lnB] = [a, b].map((side) => side.map((density) => Math.log(density[k])));
    const difference = meanAndVariance(lnB).mean - meanAndVariance(lnA).mean;
    if (!Number.isFinite(difference)) return undefined;
    const estimate = welchT(lnA, lnB);
    const middle = Math.exp(difference);
    const interval = estimate === undefined ? { low: middle, high: middle } : ratioInterval(estimate, confidence);
    [ratio[k], low[k], high[k]] = [middle, interval.low, interval.high];
  }
  return { ratio, low, high };
}
