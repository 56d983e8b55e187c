/** Values in one bucket from which the bucket is left to the language's own sort. */
const crowded = 24;

/**
 * Sorts numbers in place, smallest first, in time that grows with their count where they spread over their range: each
 * goes into one of as many buckets as there are numbers, by its place in the range, and the buckets are sorted one by one.
 *
 * @param values in any order; what is no number goes to the end
 * @returns the same array
 */
export function sortNumbers(values: Float64Array): Float64Array {
  const count = values.length;
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < count; i++) {
    const value = values[i];
    if (value < low) low = value;
    if (value > high) high = value;
    if (value !== value) return values.sort();
  }
  const scale = (count - 1) / (high - low);
  // Numbers that are all alike, infinite, or nearly so far apart as a double reaches.
  if (!(scale > 0 && scale < Infinity)) return high > low ? values.sort() : values;
  const ends = new Int32Array(count);
  for (let i = 0; i < count; i++) ends[Math.floor((values[i] - low) * scale)]++;
  for (let b = 1; b < count; b++) ends[b] += ends[b - 1];
  const found = values.slice();
  for (let i = count - 1; i >= 0; i--) values[--ends[Math.floor((found[i] - low) * scale)]] = found[i];
  // Filled from behind, each end is by now where its bucket begins.
  for (let b = 0; b < count; b++) sortBucket(values, ends[b], b + 1 < count ? ends[b + 1] : count);
  return values;
}

function sortBucket(values: Float64Array, from: number, to: number): void {
  if (to - from < 2) return;
  if (to - from > crowded) return void values.subarray(from, to).sort();
  for (let i = from + 1; i < to; i++) {
    const value = values[i];
    let at = i;
    for (; at > from && values[at - 1] > value; at--) values[at] = values[at - 1];
    values[at] = value;
  }
}
