/**
 * ratio - 1 - ln(ratio), never negative, for ratio > 0.
 *
 * @param difference ratio - 1, given apart because the caller can often form it without cancellation
 *
 * Near ratio = 1 the three terms cancel; the series in v = difference / (2 + difference) does not
 * (Loader 2000, function bd0).
 */
export function relativeDeviance(ratio: number, difference: number): number {
  if (Math.abs(difference) > 0.2) return difference - Math.log(ratio);
  const v = difference / (2 + difference);
  const square = v * v;
  let power = 2 * square;
  let sum = 0;
  for (let k = 3; ; k += 2) {
    const next = sum + power / k;
    if (next === sum) return v * (difference - sum);
    sum = next;
    power *= square;
  }
}
