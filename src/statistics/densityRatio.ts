import { studentTInterval } from './distributions/studentT.ts';
import { meanAndVariance } from './summary.ts';
import { expOf } from '../numbers/exponential.ts';
import { logOf } from '../numbers/logarithm.ts';

/** B/A of spectral densities, bin by bin, with an interval that holds for all bins together. */
export interface RatioOfDensities {
  /** Ratio of the geometric means over the runs, of mean square. */
  readonly ratio: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** Fewest runs a side for an interval bin by bin. */
const fewest = 4;

/** Bins either side over which a bin's variance is averaged: more would break at a sharp resonance. */
const reach = 2;

/**
 * Ratio of densities in each bin, from the logarithms of the runs' densities, the run as the unit of evidence as
 * everywhere. A bin's variance is averaged over the two bins on either side, which gives (n - 1) x 5 degrees of freedom
 * for n runs on the smaller side, and the interval is Bonferroni's over all bins: it misses anywhere in 1.5 to 4 % of
 * spectra (simulated), where intervals of single bins miss in nearly all. It shows where to look; no verdict rests on a bin.
 *
 * @param a, b one density a run, all of one length or longer than the shortest by bins at the end
 * @param confidence for all bins together
 * @returns undefined with fewer than 4 runs a side, or when a bin holds nothing at all
 */
export function densityRatio(
  a: readonly Float64Array[],
  b: readonly Float64Array[],
  confidence: number,
): RatioOfDensities | undefined {
  const runs = Math.min(a.length, b.length);
  if (runs < fewest) return undefined;
  const bins = Math.min(...[...a, ...b].map(({ length }) => length));
  const difference = new Float64Array(bins);
  const variance = new Float64Array(bins);
  for (let k = 0; k < bins; k++) {
    const [sideA, sideB] = [a, b].map((side) => meanAndVariance(side.map((density) => logOf(density[k]))));
    difference[k] = sideB.mean - sideA.mean;
    if (!Number.isFinite(difference[k])) return undefined;
    variance[k] = sideA.variance / sideA.n + sideB.variance / sideB.n;
  }
  const t = studentTInterval(1 - (1 - confidence) / bins, (runs - 1) * (2 * reach + 1));
  const [ratio, low, high] = [0, 1, 2].map(() => new Float64Array(bins));
  for (let k = 0; k < bins; k++) {
    const error = t * Math.sqrt(meanOf(variance.subarray(Math.max(0, k - reach), k + reach + 1)));
    ratio[k] = expOf(difference[k]);
    low[k] = expOf(difference[k] - error);
    high[k] = expOf(difference[k] + error);
  }
  return { ratio, low, high };
}

const meanOf = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;
