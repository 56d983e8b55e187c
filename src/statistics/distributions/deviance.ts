import { logOf } from '../../numbers/logarithm.ts';

/**
 * ratio - 1 - ln(ratio), never negative. Near ratio = 1 the three terms cancel; the series in
 * v = difference / (2 + difference) does not (Loader 2000, "Fast and accurate computation of binomial probabilities",
 * function bd0).
 *
 * @param ratio above 0
 * @param difference ratio - 1, given apart because the caller can often form it without cancellation
 */
export function relativeDeviance(ratio: number, difference: number): number {
  if (Math.abs(difference) > 0.2) return difference - logOf(ratio);
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
