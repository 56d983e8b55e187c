/** What is known of arrays that nobody changes any more; they are long, and asked about more than once. */
const known = new WeakMap<Float64Array, boolean>();

/** Whether some value is NaN, which is how an empty cell is kept. */
export function hasGaps(values: Float64Array): boolean {
  const before = known.get(values);
  if (before !== undefined) return before;
  let sum = 0;
  // Nothing times NaN is NaN; no value is infinite.
  for (let i = 0; i < values.length; i++) sum += values[i] * 0;
  known.set(values, sum !== 0);
  return sum !== 0;
}

/** Says that no value is NaN, where the reader has seen it. */
export function declareWhole(values: Float64Array): void {
  known.set(values, false);
}
