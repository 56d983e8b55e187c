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
  /** Such differences added up in their order. */
  readonly stepSum: number;
  /** Smallest size of such a difference that is not 0, or Infinity. */
  readonly leastChange: number;
  /** Most times in a row that one is the same as the one before it. */
  readonly longestHeld: number;
}

/**
 * Facts of the numbers that were looked at so far: lowest and highest, sum, sum of the squares, smallest and largest step, smallest
 * change, sum of the steps; how many in a row are now the same as the one before, and the most of that.
 */
export type FactsSoFar = Float64Array;

/** The facts before any number. */
export const factsOfNone = (): FactsSoFar =>
  Float64Array.of(Infinity, -Infinity, 0, 0, Infinity, -Infinity, Infinity, 0, 0, 0);

/** The facts of all numbers, once they were looked at. */
export function factsIn(all: FactsSoFar): ColumnFacts {
  const [low, high, sum, squares, leastStep, mostStep, leastChange, stepSum, , longestHeld] = all;
  return { isWhole: sum === sum, low, high, sum, squares, leastStep, mostStep, stepSum, leastChange, longestHeld };
}

/** Goes on with facts by a plain loop over the numbers `from` up to but without `to`. Zeros come without a sign. @param values none infinite */
export function plainLook(all: FactsSoFar, values: Float64Array, from: number, to: number): void {
  let [low, high, sum, squares, leastStep, mostStep, leastChange, stepSum, held, longestHeld] = all;
  // Of the first there is no difference: NaN is neither smaller nor larger.
  let before = from > 0 ? values[from - 1] : NaN;
  for (let i = from; i < to; i++) {
    const value = values[i];
    if (value < low) low = value;
    if (value > high) high = value;
    sum += value;
    squares += value * value;
    const step = value - before;
    before = value;
    if (step === step) stepSum += step;
    if (step < leastStep) leastStep = step;
    if (step > mostStep) mostStep = step;
    const size = Math.abs(step);
    if (step !== 0) held = 0;
    else if (++held > longestHeld) longestHeld = held;
    if (size < leastChange && size > 0) leastChange = size;
  }
  const found = [low + 0, high + 0, sum, squares, leastStep + 0, mostStep + 0, leastChange, stepSum, held, longestHeld];
  all.set(found);
}

/** The smallest difference of a number to the one so many rows before it, of those that are not below 0; Infinity where there is none. Zero comes without a sign. */
export function plainLeastSpan(values: Float64Array, rows: number): number {
  let least = Infinity;
  for (let i = rows; i < values.length; i++) {
    const span = values[i] - values[i - rows];
    if (span >= 0 && span < least) least = span;
  }
  return least + 0;
}

/** Each so many-th of some numbers, from the first on, as a copy. */
export function plainEvery(values: Float64Array, stride: number): Float64Array {
  const picked = new Float64Array(Math.ceil(values.length / stride));
  for (let i = 0, at = 0; at < values.length; i++, at += stride) picked[i] = values[at];
  return picked;
}

/** Of each of four distances how many numbers lie nearer to `low`, and then how many to `high`. */
export type NearCounts = readonly number[];

/** Four distances. */
export type Distances = readonly [number, number, number, number];

/** Counts by a plain loop. */
export function plainNear(values: Float64Array, low: number, high: number, distances: Distances): NearCounts {
  const counts = [0, 0, 0, 0, 0, 0, 0, 0];
  const farthest = Math.max(...distances);
  for (let i = 0; i < values.length; i++) {
    const [above, below] = [values[i] - low, high - values[i]];
    if (above >= farthest && below >= farthest) continue;
    for (let k = 0; k < 4; k++) {
      if (above < distances[k]) counts[k]++;
      if (below < distances[k]) counts[4 + k]++;
    }
  }
  return counts;
}

/** Steps from number to number, as they lie around their mean. */
export interface Spread {
  /** Squares of the steps less their mean, added up in their order. */
  readonly squares: number;
  /** How many of the steps lie between two bounds. */
  readonly within: number;
}

/** What steps are held against: their mean, and two bounds. */
export interface Around {
  readonly mean: number;
  readonly least: number;
  readonly most: number;
}

/** The spread of the steps within spans by a plain loop. */
export function plainSpread(values: Float64Array, spans: readonly Span[], { mean, least, most }: Around): Spread {
  let squares = 0;
  let within = 0;
  for (const { from, to } of spans) {
    for (let i = from + 1; i < to; i++) {
      const step = values[i] - values[i - 1];
      squares += (step - mean) * (step - mean);
      if (step > least && step < most) within++;
    }
  }
  return { squares, within };
}

/** What the steps from number to number are told apart by: two sizes, of which `half` is the smaller, and a number between. */
export interface StepBounds {
  readonly jump: number;
  readonly half: number;
  readonly middle: number;
}

/** How many steps go up and down by more than `jump`, how many others are larger than `half`, and how many of the rest cross the middle. */
export interface StepSizes {
  readonly up: number;
  readonly down: number;
  readonly large: number;
  readonly crossing: number;
}

/** The sizes of the steps within spans by a plain loop. */
export function plainSteps(
  values: Float64Array,
  spans: readonly Span[],
  { jump, half, middle }: StepBounds,
): StepSizes {
  let [up, down, large, crossing] = [0, 0, 0, 0];
  for (const { from, to } of spans) {
    for (let i = from + 1; i < to; i++) {
      const step = values[i] - values[i - 1];
      if (step > jump) up++;
      else if (step < -jump) down++;
      else if (Math.abs(step) > half) large++;
      else if (values[i - 1] < middle !== values[i] < middle) crossing++;
    }
  }
  return { up, down, large, crossing };
}

/** Unbroken numbers or rows, from one up to but without another. */
export interface Span {
  readonly from: number;
  readonly to: number;
}
