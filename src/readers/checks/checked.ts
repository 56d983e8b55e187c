import { sortNumbers } from '../../signal/sort.ts';
import { stepOnGrid } from './stepOnGrid.ts';
import type { Finding, Stretch } from '../recording.ts';
import { everyOf, factsOf } from '../columnFacts.ts';
import { oncePerArray } from '../oncePerArray.ts';
import { accelerationSize, accelerationUnits } from '../units.ts';

/** What a check looks at: a recording, or a run made of one. */
export interface CheckedRun {
  /** Samples a second, in Hz. */
  readonly rate: number;
  readonly stretches: readonly Stretch[];
  /** One a sample, in s from the recording's first, where they were not taken evenly. */
  readonly times?: Float64Array | undefined;
  readonly channels: readonly CheckedChannel[];
}

/** A channel as the checks take it. */
export interface CheckedChannel {
  readonly name: string;
  /** Symbol of the unit, or undefined if it is not settled. */
  readonly unit: string | undefined;
  /** Whether this is an axis of acceleration. */
  readonly axis: boolean;
  readonly samples: Float64Array;
  /** False once the mean, and gravity with it, was taken out; true if not said. */
  readonly includesStatic?: boolean | undefined;
  /** End of the sensor's range in g, where the file states it. */
  readonly range?: number | undefined;
}

/** What the recording is to answer: the band of interest in Hz and the length of a segment in s. */
export interface Question {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  readonly segment?: number | undefined;
}

/** One check: a recording in, what is worth saying out. */
export type Check = (run: CheckedRun, question: Question) => Finding[];

/** The axes of acceleration, or every channel where there is none. */
export function measured({ channels }: CheckedRun): readonly CheckedChannel[] {
  const axes = channels.filter(({ axis }) => axis);
  return axes.length > 0 ? axes : channels;
}

/** Size of a channel's unit in g, or undefined for what is no acceleration. */
export function inGravity({ unit }: CheckedChannel): number | undefined {
  const size = accelerationSize(unit);
  return size === undefined ? undefined : size / accelerationUnits.g;
}

/** Time of a sample in s from the recording's first. */
function timeOf({ stretches, rate, times }: CheckedRun, index: number): number {
  if (times !== undefined) return times[index];
  let at = stretches[0];
  for (const stretch of stretches) if (stretch.from <= index) at = stretch;
  return at.start + (index - at.from) / rate;
}

/** Samples that are looked at where all would be too many. */
const most = 100_000;

const strideOf = ({ length }: Float64Array, atMost: number): number => Math.max(1, Math.ceil(length / atMost));

/** At most so many of the samples, evenly picked, as a copy. */
export const some = (samples: Float64Array, atMost = most): Float64Array => everyOf(samples, strideOf(samples, atMost));

/** Mean of the samples from `from` up to but without `to`. */
export function meanOf(samples: Float64Array, from = 0, to = samples.length): number {
  if (from === 0 && to === samples.length) return factsOf(samples).sum / to;
  let sum = 0;
  for (let i = from; i < to; i++) sum += samples[i];
  return sum / (to - from);
}

/** Mean square of the samples less a level. */
export function meanSquare(samples: Float64Array, level: number, from = 0, to = samples.length): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += (samples[i] - level) ** 2;
  return sum / (to - from);
}

/**
 * Smallest difference between two values that occur, or 0 where all are alike: one step of the converter. Several checks ask
 * for it, and an answer may sort the samples.
 */
export const converterStep = oncePerArray(smallestStep);

function smallestStep(samples: Float64Array): number {
  const picked = glance(samples);
  const onGrid = stepOnGrid(picked);
  if (onGrid !== undefined) return onGrid;
  const sorted = sortNumbers(picked.slice());
  let least = Infinity;
  const range = sorted[sorted.length - 1] - sorted[0];
  for (let i = 1; i < sorted.length; i++) {
    const step = sorted[i] - sorted[i - 1];
    // The last bits of a converted number are no step.
    if (step > 1e-9 * range && step < least) least = step;
  }
  return Number.isFinite(least) ? least : 0;
}

/** Glances that are kept at a time: those of a recording's axes, and not of all recordings. */
const glancesKept = 4;
let [glances, glanced] = [new WeakMap<Float64Array, Float64Array>(), 0];

/** As `some`, not to be changed: the samples themselves where these are few. */
function glance(samples: Float64Array): Float64Array {
  if (samples.length <= most) return samples;
  const before = glances.get(samples);
  if (before !== undefined) return before;
  if (++glanced > glancesKept) [glances, glanced] = [new WeakMap(), 1];
  const picked = some(samples);
  glances.set(samples, picked);
  return picked;
}

/**
 * A number that the converter's step is not above, without a look at all pairs of values: the smallest difference of two
 * samples beside each other. Infinity where all are alike.
 */
export function stepBound(samples: Float64Array): number {
  const picked = glance(samples);
  const { isWhole, leastChange, low, high } = factsOf(picked);
  const least = 1e-9 * (high - low);
  if (isWhole && leastChange > least) return leastChange;
  let bound = Infinity;
  for (let i = 1; i < picked.length; i++) {
    const step = Math.abs(picked[i] - picked[i - 1]);
    if (step > least && step < bound) bound = step;
  }
  return bound;
}

/** Pairs of samples that are looked at before `stepBound` is taken. */
const firstPairs = 1000;

/**
 * Whether something holds of `stepBound` that holds of every number above one of which it holds: mostly the first samples
 * tell that it does not, and the others need not be looked at.
 */
export function holdsOfStepBound(samples: Float64Array, holds: (bound: number) => boolean): boolean {
  const { low, high } = factsOf(samples);
  const least = 1e-9 * (high - low);
  const stride = strideOf(samples, most);
  const end = Math.min(samples.length, (firstPairs + 1) * stride);
  for (let at = stride; at < end; at += stride) {
    const step = Math.abs(samples[at] - samples[at - stride]);
    if (step > least && !holds(step)) return false;
  }
  return holds(stepBound(samples));
}

/** Whether two numbers are one reading, but for the last bits of a conversion. */
export const isSameReading = (a: number, b: number, range: number): boolean => Math.abs(a - b) <= 1e-9 * range;

/** At most so many places of a finding are told one by one; the last of them reaches over the rest. */
const spansTold = 200;

/** Spans of samples in s from the recording's first sample, in order. */
export function timeSpans(
  run: CheckedRun,
  spans: readonly { readonly from: number; readonly to: number }[],
): { from: number; to: number }[] {
  return spans.slice(0, spansTold).map(({ from, to }, index) => {
    const end = index === spansTold - 1 ? spans[spans.length - 1].to : to;
    return { from: timeOf(run, from), to: timeOf(run, Math.max(from, end - 1)) + 1 / run.rate };
  });
}
