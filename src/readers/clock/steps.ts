/** Median of some numbers; NaN of none. */
export function median(values: Float64Array): number {
  if (values.length === 0) return NaN;
  const sorted = values.slice().sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/** Value below which a share of some numbers lies; NaN of none. */
export function quantile(values: Float64Array, share: number): number {
  if (values.length === 0) return NaN;
  const sorted = values.slice().sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}

/** What the steps from stamp to stamp look like. Times in s. */
export interface StepShape {
  readonly count: number;
  readonly forward: number;
  readonly zero: number;
  readonly backward: number;
  /** Median of a fair sample of all steps, and of those that go forward. */
  readonly median: number;
  readonly forwardMedian: number;
  readonly forwardHigh: number;
}

const sampled = 20_000;

const known = new WeakMap<Float64Array, StepShape>();

/** Looks at the steps between stamps; medians are of at most 20,000 steps spread over the recording. */
export function stepShape(t: Float64Array): StepShape {
  const before = known.get(t);
  if (before) return before;
  const shape = lookAt(t);
  known.set(t, shape);
  return shape;
}

function lookAt(t: Float64Array): StepShape {
  let forward = 0;
  let zero = 0;
  let backward = 0;
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (step > 0) forward++;
    else if (step === 0) zero++;
    else if (step < 0) backward++;
  }
  const stride = Math.max(1, Math.floor((t.length - 1) / sampled));
  const some: number[] = [];
  for (let i = 1; i < t.length; i += stride) some.push(t[i] - t[i - 1]);
  // An empty stamp leaves no step.
  const all = Float64Array.from(some.filter((step) => !Number.isNaN(step)));
  const ahead = all.filter((step) => step > 0);
  return {
    count: Math.max(0, t.length - 1),
    forward,
    zero,
    backward,
    median: median(all),
    forwardMedian: median(ahead),
    forwardHigh: quantile(ahead, 0.95),
  };
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
  const usual = median(t.subarray(1, end).map((stamp, i) => stamp - t[i])) / resolution;
  for (let i = 1; i < end && divisor !== 1; i++) {
    // A gap ends wherever it ends, so only steps like the others count.
    if (unitsOf(i) <= 2.5 * usual || usual <= 1) divisor = gcd(divisor, unitsOf(i));
  }
  // Digits so fine that steps are no whole numbers of them any more tell nothing.
  if (!(divisor > 1) || !Number.isSafeInteger(divisor)) return resolution;
  // Steps that are all alike, but for gaps, tell nothing of rounding.
  let alike = 0;
  for (let i = 1; i < end; i++) if (unitsOf(i) === divisor) alike++;
  return alike > 0.95 * (end - 1) ? resolution : divisor * resolution;
}

function gcd(a: number, b: number): number {
  while (b > 0) [a, b] = [b, a % b];
  return a;
}
