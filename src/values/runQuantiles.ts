import { percentiles } from '../signal/percentile.ts';

/**
 * Quantiles over runs, bin by bin: within which levels so many of them lie.
 * @param levels of each run, at the same frequencies, at least one
 * @param shares each 0 to 1
 * @returns for each bin asked for one level a share
 */
export function runQuantiles(
  levels: readonly Float64Array[],
  bins: readonly number[],
  shares: readonly number[],
): readonly (readonly number[])[] {
  return bins.map((bin) =>
    percentiles(
      Float64Array.from(levels, (level) => level[bin]),
      shares,
    ),
  );
}
