const bins = 512;

/** Bounds of the median of some values, and a number that their median distance from it is above. */
export interface SpreadBound {
  readonly lowest: number;
  readonly highest: number;
  readonly distance: number;
}

/**
 * What counts of the values in bins tell of their median and of how far they lie from it, without putting them in order: of
 * the bins about the median so many hold fewer than half of the values that their half width is below the distance.
 *
 * @param values at least one, none NaN
 * @param low none is below, and `high` none above; apart
 */
export function spreadBound(values: Float64Array, low: number, high: number): SpreadBound {
  const counts = new Uint32Array(bins);
  const scale = bins / (high - low);
  for (let i = 0; i < values.length; i++) counts[Math.min(bins - 1, Math.floor((values[i] - low) * scale))]++;
  const width = (high - low) / bins;
  const half = values.length / 2;
  const place = (values.length - 1) / 2;
  const [first, last] = [binOf(counts, Math.floor(place)), binOf(counts, Math.ceil(place))];
  let within = 0;
  for (let bin = first; bin <= last; bin++) within += counts[bin];
  let beside = 0;
  while (within < half) {
    beside++;
    within += (counts[first - beside] ?? 0) + (counts[last + beside] ?? 0);
  }
  // Rounding may put a value into a bin beside its own.
  return {
    lowest: low + (first - 1) * width,
    highest: low + (last + 2) * width,
    distance: Math.max(0, (beside - 3) * width),
  };
}

/** The bin of the value of a rank, counted from 0. */
function binOf(counts: Uint32Array, rank: number): number {
  let [bin, below] = [0, counts[0]];
  while (below <= rank) below += counts[++bin];
  return bin;
}
