import { oncePerArray } from './oncePerArray.ts';

/** What one pass over numbers tells that several checks ask for. */
export interface ColumnFacts {
  /** Whether none of them is NaN; where one is, sums are NaN and differences to it are left out. */
  readonly isWhole: boolean;
  readonly low: number;
  readonly high: number;
  /** Added up in their order, and their squares likewise. */
  readonly sum: number;
  readonly squares: number;
  /** Smallest and largest difference of one to the one before it; Infinity and -Infinity where there is only one. */
  readonly leastStep: number;
  readonly mostStep: number;
  /** Smallest size of such a difference that is not 0, or Infinity. */
  readonly leastChange: number;
  /** Most times in a row that one is the same as the one before it. */
  readonly longestHeld: number;
}

/** What one pass over some numbers tells. @param values none infinite; not changed afterwards */
export const factsOf = oncePerArray(lookAt);

function lookAt(values: Float64Array): ColumnFacts {
  let [low, high] = [Infinity, -Infinity];
  let [sum, squares] = [0, 0];
  let [leastStep, mostStep, leastChange] = [Infinity, -Infinity, Infinity];
  let [held, longestHeld] = [0, 0];
  let before = NaN;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value < low) low = value;
    if (value > high) high = value;
    sum += value;
    squares += value * value;
    // Of the first there is no difference: NaN is neither smaller nor larger.
    const step = value - before;
    before = value;
    if (step === 0) {
      if (++held > longestHeld) longestHeld = held;
      if (leastStep > 0) leastStep = 0;
      if (mostStep < 0) mostStep = 0;
      continue;
    }
    held = 0;
    if (step < leastStep) leastStep = step;
    if (step > mostStep) mostStep = step;
    const size = Math.abs(step);
    if (size < leastChange) leastChange = size;
  }
  const isWhole = sum === sum;
  return { isWhole, low, high, sum, squares, leastStep, mostStep, leastChange, longestHeld };
}
