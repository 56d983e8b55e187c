/**
 * Percentiles by linear interpolation between order statistics at p (n - 1) (Hyndman and Fan 1996, Am. Stat. 50,
 * type 7; numpy's default). The values are put in another order, but not sorted.
 *
 * @param values at least one number, none NaN; overwritten
 * @param shares each between 0 and 1, such as 0.999
 * @returns one value a share, in the values' unit
 * @throws RangeError for no values
 */
export function percentiles(values: Float64Array, shares: readonly number[]): number[] {
  if (values.length === 0) throw new RangeError('percentiles need at least one value');
  // What lies behind a rank that was found is not below it.
  let found = 0;
  return shares.map((share) => {
    const place = share * (values.length - 1);
    const index = Math.floor(place);
    const part = place - index;
    selectRank(values, index, index < found ? 0 : found);
    found = index;
    const low = values[index];
    if (part === 0) return low;
    let high = Infinity;
    for (let i = index + 1; i < values.length; i++) if (values[i] < high) high = values[i];
    return part < 0.5 ? low + (high - low) * part : high - (high - low) * (1 - part);
  });
}

/** Median of the values, at least one, which are put in another order. */
export function median(values: Float64Array): number {
  return percentiles(values, [0.5])[0];
}

/** After so many parts that did not narrow the search down the rest is sorted: some orders would take a part a value. */
const mostParts = 80;

/**
 * Puts the value of rank `index`, counted from 0 at the smallest, in its place, smaller ones before it and larger ones
 * after (Hoare 1961, Find).
 *
 * @param values none NaN; put in another order
 * @param index at least 0 and below their count
 * @param from where the search begins: no value before it is above one from there on
 */
export function selectRank(values: Float64Array, index: number, from = 0): void {
  let left = from;
  let right = values.length - 1;
  for (let part = 0; left < right; part++) {
    if (part === mostParts) return void values.subarray(left, right + 1).sort();
    const pivot = medianOfThree(values[left], values[(left + right) >>> 1], values[right]);
    let i = left - 1;
    let j = right + 1;
    for (;;) {
      do i++;
      while (values[i] < pivot);
      do j--;
      while (values[j] > pivot);
      if (i >= j) break;
      const held = values[i];
      values[i] = values[j];
      values[j] = held;
    }
    if (index <= j) right = j;
    else left = j + 1;
  }
}

function medianOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
