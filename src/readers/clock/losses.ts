import { settings } from '../settings.ts';
import { factsOf, leastSpan } from '../columnFacts.ts';
import type { Break } from './breaks.ts';
import type { StepShape } from './steps.ts';

/**
 * The step between neighbours, in s, where the longer steps are losses: they gather around twice that step and not
 * right beyond 1.5 of it, as the tail of uneven steps does. Undefined where they don't, or rounding hides it.
 */
export function neighbourStep(t: Float64Array, shape: StepShape, quantum: number): number | undefined {
  const { bounds } = shape;
  // Whatever the usual step is, it lies between the bounds.
  if (bounds !== undefined && areAllAlike(t, [bounds.least, bounds.most])) return undefined;
  let step = shape.forwardMedian;
  if (areAllAlike(t, [step, step])) return undefined;
  for (let round = 0; round < 4; round++) {
    const { sum, count } = stepsBetween(t, 0.5 * step, settings.gapSteps * step);
    if (count === 0) return undefined;
    step = sum / count;
  }
  if (quantum > 0.25 * step) return undefined;
  const tail = stepsBetween(t, settings.gapSteps * step, 1.75 * step).count;
  const twice = stepsBetween(t, 1.75 * step, 2.25 * step).count;
  const long = stepsBetween(t, settings.gapSteps * step, Infinity).count;
  return long > settings.unevenShare * t.length && twice > 3 * tail ? step : undefined;
}

/** Whether every step lies around the usual one, between two bounds, and around their mean, so that none is long by whichever of both. */
function areAllAlike(t: Float64Array, [least, most]: readonly [number, number]): boolean {
  const { isWhole, leastStep, mostStep } = factsOf(t);
  const mean = (t[t.length - 1] - t[0]) / (t.length - 1);
  // A hair nearer than is asked for, as the mean of the steps is rounded otherwise.
  const [low, high] = [0.501 * Math.max(most, mean), 0.999 * settings.gapSteps * Math.min(least, mean)];
  return isWhole && leastStep > low && mostStep < high;
}

function stepsBetween(t: Float64Array, above: number, upTo: number): { readonly sum: number; readonly count: number } {
  let sum = 0;
  let count = 0;
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (!(step > above && step <= upTo)) continue;
    sum += step;
    count++;
  }
  return { sum, count };
}

/**
 * Samples a second over short stretches whose gaps are whole numbers of steps long: counting on across them keeps the
 * error of a stamp from entering at the ends of every stretch. A gap that fits no whole number begins a new count.
 * @param spans unbroken rows, in order
 * @param joins whether a span goes on with the clock of the one before
 * @param rate as the spans alone give it, in Hz
 */
export function rateAcross(
  t: Float64Array,
  spans: readonly { readonly from: number; readonly to: number }[],
  joins: readonly boolean[],
  rate: number,
): number {
  let [steps, duration] = [0, 0];
  for (const [s, { from, to }] of spans.entries()) {
    steps += to - 1 - from;
    duration += t[to - 1] - t[from];
    if (s === 0 || !joins[s]) continue;
    const gap = t[from] - t[from - 1];
    const whole = Math.round(gap * rate);
    if (whole > settings.across.most || Math.abs(gap * rate - whole) > settings.across.off) continue;
    steps += whole;
    duration += gap;
  }
  return duration > 0 && steps > 0 ? steps / duration : rate;
}

/**
 * A rate in Hz that the true one is not below, by the rows that stand closest together: rounding to a quantum in s
 * stretches what lies between two stamps by one quantum at most, and losses only thin rows out. Nothing where a part
 * runs backwards.
 */
export function leastRate(t: Float64Array, quantum: number): number {
  const { isWhole, leastStep } = factsOf(t);
  let least = 0;
  for (const rows of [2048, 1024, 512, 256, 128, 64, 32, 16]) {
    if (rows > t.length / 4) continue;
    // No rows stand closer than the shortest step lets them, but for the rounding of their sum.
    const bound = isWhole && leastStep > 0 ? rows / ((1 - 1e-9) * rows * leastStep + quantum) : Infinity;
    if (bound > least) least = Math.max(least, rows / (densest(t, rows) + quantum));
  }
  return least;
}

/** The shortest time in s from a row to the one so many rows later, of those that don't run backwards. */
export const densest = (t: Float64Array, rows: number): number => leastSpan(t, rows);

/**
 * Whether steps that are told to be a lost sample may as well be the rounding of a slower clock, as those of two units are where
 * samples come a unit apart, and are so many that the rate would be another.
 */
export function mayRound(t: Float64Array, breaks: readonly Break[], quantum: number, rate: number): boolean {
  if (!(quantum * rate > settings.roundedGaps)) return false;
  const single = breaks.filter(({ row, reset }) => !reset && Math.round((t[row] - t[row - 1]) * rate) === 2);
  return single.length > settings.uncertain * t.length;
}
