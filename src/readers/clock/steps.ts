import { logOf } from '../../numbers/logarithm.ts';
import { selectRank } from '../../signal/percentile.ts';
import { factsOf } from '../columnFacts.ts';
import { oncePerArray } from '../oncePerArray.ts';
import { memoryForNumbers } from '../reusedMemory.ts';
import { settings } from '../settings.ts';

/** Median of some numbers; NaN of none. */
export const median = (values: Float64Array): number => medianIn(values.slice());

/** Median of some numbers, which are put in another order. */
function medianIn(values: Float64Array): number {
  if (values.length === 0) return NaN;
  const middle = values.length >> 1;
  selectRank(values, middle);
  if (values.length % 2 === 1) return values[middle];
  let below = -Infinity;
  for (let i = 0; i < middle; i++) if (values[i] > below) below = values[i];
  return (below + values[middle]) / 2;
}

/** Value below which a share of some numbers lies; NaN of none. They are put in another order. */
function quantileIn(values: Float64Array, share: number): number {
  if (values.length === 0) return NaN;
  const rank = Math.min(values.length - 1, Math.floor(share * values.length));
  selectRank(values, rank);
  return values[rank];
}

/** How many steps there are from stamp to stamp, and which way they go. */
export interface StepCounts {
  readonly count: number;
  readonly forward: number;
  readonly zero: number;
  readonly backward: number;
}

const sampled = 20_000;

/** Counts the steps between stamps. */
export const stepCounts = oncePerArray(countSteps);

/** Looks at the steps between stamps; medians are of at most 20,000 steps spread over the recording, and made when asked for. */
export const stepShape = oncePerArray((t) => new StepShape(t));

function countSteps(t: Float64Array): StepCounts {
  const count = Math.max(0, t.length - 1);
  const { isWhole, leastStep } = factsOf(t);
  if (isWhole && leastStep > 0) return { count, forward: count, zero: 0, backward: 0 };
  let forward = 0;
  let zero = 0;
  let backward = 0;
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (step > 0) forward++;
    else if (step === 0) zero++;
    else if (step < 0) backward++;
  }
  return { count, forward, zero, backward };
}

/** What the steps from stamp to stamp look like. Times in s. */
export class StepShape implements StepCounts {
  readonly count: number;
  readonly forward: number;
  readonly zero: number;
  readonly backward: number;
  /** What no step is below and none above where no stamp is empty and all go forward: their medians lie between. */
  readonly bounds: { readonly least: number; readonly most: number } | undefined;
  readonly #t: Float64Array;
  #medians: Medians | undefined;

  constructor(t: Float64Array) {
    this.#t = t;
    ({ count: this.count, forward: this.forward, zero: this.zero, backward: this.backward } = stepCounts(t));
    const { isWhole, leastStep, mostStep } = factsOf(t);
    this.bounds = isWhole && leastStep > 0 && t.length > 1 ? { least: leastStep, most: mostStep } : undefined;
  }

  /** Median of a fair sample of all steps. */
  get median(): number {
    return this.#found().median;
  }

  /** Median of those of the sample that go forward. */
  get forwardMedian(): number {
    return this.#found().forwardMedian;
  }

  /** Step that 95 of 100 of those that go forward do not exceed. */
  get forwardHigh(): number {
    return this.#found().forwardHigh;
  }

  #found(): Medians {
    return (this.#medians ??= mediansOf(this.#t));
  }
}

interface Medians {
  readonly median: number;
  readonly forwardMedian: number;
  readonly forwardHigh: number;
}

function mediansOf(t: Float64Array): Medians {
  const { all, ahead } = someSteps(t);
  const usual = medianIn(all);
  return {
    median: usual,
    // Most clocks never stand still nor run back: then both are the same steps.
    forwardMedian: ahead === all ? usual : medianIn(ahead),
    forwardHigh: quantileIn(ahead, 0.95),
  };
}

/** A fair sample of the steps, and those of it that go forward: the same array where all of them do. */
function someSteps(t: Float64Array): { readonly all: Float64Array; readonly ahead: Float64Array } {
  const stride = Math.max(1, Math.floor((t.length - 1) / sampled));
  const steps = memoryForNumbers(Math.ceil(Math.max(0, t.length - 1) / stride));
  let count = 0;
  let forward = 0;
  for (let i = 1; i < t.length; i += stride) {
    const step = t[i] - t[i - 1];
    // An empty stamp leaves no step.
    if (step !== step) continue;
    if (step > 0) forward++;
    steps[count++] = step;
  }
  const all = steps.subarray(0, count);
  return { all, ahead: forward === count ? all : all.filter((step) => step > 0) };
}

/** The ms that programs count time in. */
const tick = 1e-3;

/**
 * One unit of the last digit of stamps, in s, or 1 ms where stamps with finer digits count whole ms one by one and leave out so
 * many that rounding may be why: more digits do not make such a clock finer.
 */
export function resolutionOf(t: Float64Array, resolution: number): number {
  if (!(resolution < tick)) return resolution;
  let [ones, twos] = [0, 0];
  const end = Math.min(t.length, 5000);
  for (let i = 1, before = 0; i < end; i++) {
    const at = Math.round((t[i] - t[0]) / tick);
    // Nanoseconds that were made of a fraction are off by their last bits.
    if (!(at > before) || Math.abs(t[i] - t[0] - at * tick) > 1e-3 * tick) return resolution;
    const whole = at - before;
    before = at;
    if (whole === 1) ones++;
    else if (whole === 2) twos++;
  }
  return 2 * ones > end && twos > settings.uncertain * end ? tick : resolution;
}

/**
 * The step that stamps are rounded to, in s: `resolution` (one unit of the last digit), or the largest multiple of it
 * that every one of the first steps is a multiple of.
 */
export function stampQuantum(t: Float64Array, resolution: number): number {
  if (!(resolution > 0)) return 0;
  let divisor = 0;
  const end = Math.min(t.length, 5000);
  const unitsOf = (i: number): number => Math.abs(Math.round((t[i] - t[i - 1]) / resolution));
  // The usual step is no shorter than the shortest, by which nearly every step is like the others.
  const least = (stepShape(t).bounds?.least ?? 0) / resolution;
  let usual: number | undefined;
  const isLikeOthers = (units: number): boolean => {
    if (units <= 2.5 * least) return true;
    usual ??= median(t.subarray(1, end).map((stamp, i) => stamp - t[i])) / resolution;
    return units <= 2.5 * usual || usual <= 1;
  };
  for (let i = 1; i < end && divisor !== 1; i++) {
    // A gap ends wherever it ends, so only steps like the others count.
    const units = unitsOf(i);
    if (isLikeOthers(units)) divisor = gcd(divisor, units);
  }
  // Digits so fine that steps are no whole numbers of them any more tell nothing.
  if (!(divisor > 1) || !Number.isSafeInteger(divisor)) return resolution;
  // Steps that are all alike, but for gaps, tell nothing of rounding.
  const odd: number[] = [];
  let gaps = 0;
  for (let i = 1; i < end; i++) {
    const units = unitsOf(i);
    if (units === 0 || units === 2 * divisor) odd.push(i);
    else if (units !== divisor) gaps++;
  }
  const isAlike = odd.length + gaps < 0.05 * (end - 1);
  return isAlike && !comeByRounding(odd, end - 1) ? resolution : divisor * resolution;
}

/**
 * Whether single odd steps among steps that are all alike come by rounding, every so many rows, and not as losses at random do:
 * the longest of n stretches between losses in a share p of the rows is below ln(n / 9.2) / p with a chance of 1e-4.
 */
function comeByRounding(odd: readonly number[], steps: number): boolean {
  if (odd.length < 5) return false;
  const apart = Float64Array.from(odd.slice(1), (at, i) => at - odd[i]);
  const usual = median(apart);
  if (apart.every((rows) => Math.abs(rows - usual) <= Math.max(1, 0.1 * usual))) return true;
  const longest = apart.reduce((most, rows) => Math.max(most, rows), 0);
  return longest < (logOf(odd.length / 9.2) * steps) / odd.length;
}

function gcd(a: number, b: number): number {
  while (b > 0) [a, b] = [b, a % b];
  return a;
}
