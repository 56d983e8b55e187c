import type { Stretch } from '../../signal/stretch.ts';
import { logOf } from '../../numbers/logarithm.ts';
import { factsOf } from '../columnFacts.ts';
import type { Span } from '../plainFacts.ts';
import { settings } from '../settings.ts';
import { missingSamples } from './missing.ts';
import { byCounting } from './counting.ts';
import { findBreaks, spansOf, type Break } from './breaks.ts';
import { leastRate, mayRound, neighbourStep, rateAcross } from './losses.ts';
import { byOccupancy } from './occupancy.ts';
import { byPhases, type PhasedClock } from './phases.ts';
import { withSlips } from './slips.ts';
import { median, resolutionOf, stampQuantum, stepShape, type StepCounts, type StepShape } from './steps.ts';
import { movingSteps, unevenness } from './unevenness.ts';

/** What a column of stamps says about when samples were taken. */
export interface StampClock {
  /** Samples a second. */
  readonly rate: number;
  readonly stretches: readonly Stretch[];
  readonly jitter: number;
  /** Seconds from the first stamp, where sampling is uneven. */
  readonly times: Float64Array | undefined;
  /** Step that the stamps are rounded to, in s. */
  readonly quantum: number;
  readonly delivery: 'even' | 'rounded' | 'coarse' | 'bursts';
  /** Samples that the gaps leave out. */
  readonly missing: number;
  readonly repeated: number;
  readonly backward: number;
  /** Jumps back of the clock itself. */
  readonly resets: number;
  /** Rows over which the clock stood still, far longer than stamps are shared elsewhere. */
  readonly held: { readonly rows: number; readonly first: number };
  /** Whether many samples are lost, and stamps are too coarse to tell each loss. */
  readonly hidesLosses: boolean;
  /** By how much one lost sample that coarse stamps hide makes the rate too low, as a share; undefined where each shows. */
  readonly each: number | undefined;
  /** Rate in Hz that the true one is not below, where stamps are about as coarse as the step; else 0. */
  readonly least: number;
  /** Samples that are lost at least by that rate; undefined where the clock was set anew or there is no such rate. */
  readonly leastLost: number | undefined;
  /** From the first stamp to the last, in s. */
  readonly span: number;
}

/** Rate, gaps and unevenness of stamps in s, at least two and not all equal; `resolution` is one unit of their last digit, in s. */
export function clockOf(t: Float64Array, resolution: number): StampClock | undefined {
  const clock = clockBySteps(t, resolutionOf(t, resolution));
  if (clock === undefined || clock.backward > 0 || clock.held.rows > 0) return clock;
  const { quantum, delivery } = clock;
  // Many losses among stamps that several samples share look like bursts.
  const isShared = delivery === 'bursts' && quantum > settings.occupancy.fewest / 2 / clock.rate;
  const isInDoubt = unsureBy(clock) !== undefined;
  if (!isShared && (isInDoubt || clock.times !== undefined) && clock.delivery !== 'bursts') {
    const counted = byCounting(t, quantum);
    if (counted !== undefined) return { ...clockByPhases(t, clock, counted), hidesLosses: false, each: undefined };
  }
  if (!isShared && !isInDoubt) return clock;
  const phased = isShared ? byOccupancy(t, quantum, leastRate(t, quantum), true) : placedBy(t, clock);
  return phased === undefined ? clock : clockByPhases(t, clock, phased);
}

/** By the phases of the rows, and where those are near a whole number of turns a quantum, or tell nothing, by what quanta hold. */
function placedBy(t: Float64Array, { quantum, least }: StampClock): PhasedClock | undefined {
  const phased = byPhases(t, quantum, least);
  const turns = (phased?.rate ?? 0) * quantum;
  const isClear = phased !== undefined && Math.abs(turns - Math.round(turns)) > settings.occupancy.clear;
  return isClear ? phased : (byOccupancy(t, quantum, least) ?? phased);
}

/** By how much the rows that stand closest say the rate to be too low, as a share, where that or hidden losses leave it in doubt. */
export function unsureBy({
  rate,
  least,
  hidesLosses,
  quantum,
  span,
}: StampClock): { readonly off: number; readonly threshold: number } | undefined {
  const off = least / rate - 1;
  const threshold = settings.uncertain + (2 * quantum) / span;
  return off > threshold || hidesLosses ? { off, threshold } : undefined;
}

/** A clock whose losses the places of the rows tell; the rate stays in doubt, as it rests on even sampling. */
function clockByPhases(t: Float64Array, clock: StampClock, { rate, breaks }: PhasedClock): StampClock {
  const stretches = stretchesOf(t, spansOf(t.length, breaks), breaks, rate);
  return {
    ...clock,
    rate,
    stretches,
    jitter: 0,
    times: undefined,
    delivery: clock.delivery === 'coarse' ? 'coarse' : 'rounded',
    missing: missingSamples(stretches, rate),
    hidesLosses: true,
  };
}

function clockBySteps(t: Float64Array, resolution: number): StampClock | undefined {
  const shape = stepShape(t);
  if (shape.bounds === undefined && !(shape.forwardMedian > 0)) return undefined;
  const quantum = stampQuantum(t, resolution);
  const held = heldRows(t, shape);
  const zero = shape.zero - held.rows;
  const coarse = isCoarse(t, { count: shape.count, zero, backward: shape.backward }, quantum);
  const bursts = !coarse && (zero + shape.backward) / shape.count > settings.burst;
  const single = coarse || bursts || held.rows > 0 ? undefined : neighbourStep(t, shape, quantum);
  if (single !== undefined) {
    const limit = settings.gapSteps * single;
    return clockWith(t, shape, { resolution, quantum, held, coarse, bursts, usual: single, limit });
  }
  const usual = usualStep(t, shape, coarse || bursts);
  const limit = gapLimit(t, shape, quantum, usual, coarse, bursts);
  const found = { resolution, quantum, held, coarse, bursts, usual, limit };
  if (coarse || bursts || held.rows > 0 || keepsPace(t, quantum, usual, limit)) return clockWith(t, shape, found);
  // Where all steps but the long ones are even, the long ones are losses, and neither rounding nor unevenness.
  const even = { ...found, quantum: resolution, usual: shape.median, limit: settings.gapSteps * shape.median };
  const losses = clockWith(t, shape, even);
  const isEven = losses.jitter <= settings.jitter.note && losses.delivery === 'even';
  return isEven && mayBeLosses(losses.stretches, t.length) ? losses : clockWith(t, shape, found);
}

/**
 * Whether breaks are as losses come, with long stretches between some of them: those of rounding come every so many rows. The
 * longest of the stretches between breaks at random in a share p of n rows has some ln(n p) / p rows.
 */
function mayBeLosses(stretches: readonly Stretch[], rows: number): boolean {
  const longest = stretches.reduce((most, { from, to }) => Math.max(most, to - from), 0);
  const share = (stretches.length - 1) / rows;
  return share < 0.5 && longest * share >= 0.5 * logOf(Math.max(1, stretches.length - 1));
}

/** How steps are judged: what they are rounded to, the usual one, and the longest that is no gap. */
interface Judgement {
  readonly resolution: number;
  readonly quantum: number;
  readonly held: StampClock['held'];
  readonly coarse: boolean;
  readonly bursts: boolean;
  readonly usual: number;
  readonly limit: number;
}

function clockWith(t: Float64Array, shape: StepShape, judgement: Judgement): StampClock {
  const { resolution, quantum, held, coarse, bursts, usual, limit } = judgement;
  const shown = findBreaks(t, usual, limit, bursts || coarse, bursts ? shape.forwardHigh : 0);
  const rateBetween = (breaks: readonly Break[]): number =>
    rateOf(t, spansOf(t.length, breaks), resolution, quantum, coarse, bursts, held.rows > 0) ?? 1 / usual;
  const hides = !bursts && held.rows === 0 && quantum > settings.slips.from * usual;
  const breaks = hides ? withSlips(t, shown, quantum, rateBetween) : shown;
  const spans = spansOf(t.length, breaks);
  const ofSpans = rateBetween(breaks);
  const isPlain = !coarse && !bursts && held.rows === 0;
  const joins = [false, ...breaks.map(({ reset }) => !reset)];
  const isShort = isPlain && breaks.length > settings.refined * t.length;
  const rate = isShort ? rateAcross(t, spans, joins, ofSpans) : ofSpans;
  const spread = bursts || coarse ? { jitter: 0, rounded: coarse } : unevenness(t, spans, quantum, held.rows > 0);
  const isUneven = spread.jitter > settings.jitter.resample;
  const stretches = stretchesOf(t, spans, breaks, rate, isUneven);
  const least = !bursts && held.rows === 0 && quantum > 0.25 / rate ? leastRate(t, quantum) : 0;
  const span = t[t.length - 1] - t[0];
  const resets = breaks.filter(({ reset }) => reset).length;
  return {
    rate,
    stretches,
    jitter: spread.jitter,
    times: isUneven ? timesOf(t, stretches) : undefined,
    quantum,
    delivery: bursts ? 'bursts' : coarse ? 'coarse' : spread.rounded ? 'rounded' : 'even',
    missing: missingSamples(stretches, rate),
    repeated: shape.zero,
    backward: shape.backward,
    resets,
    held,
    hidesLosses:
      (isShort && quantum > 0.25 / rate) || hidesAsMany(t.length, breaks) || mayRound(t, breaks, quantum, rate),
    each: hides ? 1 / t.length : undefined,
    least,
    leastLost: least > 0 && resets === 0 ? Math.max(0, Math.floor(span * least) - (t.length - 1)) : undefined,
    span,
  };
}

/** Where losses were found that no step tells, as many may be hidden: whether these would make the rate wrong. */
const hidesAsMany = (rows: number, breaks: readonly Break[]): boolean =>
  breaks.some(({ missing }) => missing !== undefined) && breaks.length > settings.uncertain * rows;

/** Runs of one stamp that are far longer than the usual: a clock that stopped, and no sharing. */
function heldRows(t: Float64Array, { zero }: StepShape): StampClock['held'] {
  const held = { rows: 0, first: -1 };
  if (zero < settings.stopped.rows) return held;
  const lengths: number[] = [];
  for (let i = 1, from = 0; i <= t.length; i++) {
    if (i < t.length && t[i] === t[from]) continue;
    lengths.push(i - from);
    from = i;
  }
  const most = settings.stopped.rows + settings.stopped.times * median(Float64Array.from(lengths));
  for (let i = 0, row = 0; i < lengths.length; row += lengths[i], i++) {
    if (lengths[i] <= most) continue;
    if (held.first < 0) held.first = row;
    held.rows += lengths[i] - 1;
  }
  return held;
}

/**
 * Whether rounded stamps keep pace with even sampling: over as many steps as bring about one odd step, they get ahead or
 * behind by one unit at most, where losses at random come in twos as well. Also true where rounding plays no part.
 */
function keepsPace(t: Float64Array, quantum: number, usual: number, limit: number): boolean {
  const odd = Math.abs(usual / quantum - Math.round(usual / quantum));
  if (!(quantum > 0.1 * usual) || odd < 1e-4) return true;
  const reach = Math.max(32, Math.min(1024, Math.ceil(0.7 / odd)));
  let checked = 0;
  let off = 0;
  for (let i = reach, whole = 0; i < t.length; i++) {
    // No gap may lie within the steps that are looked at.
    if (t[i] - t[i - 1] > limit) whole = i;
    if (i - reach < whole) continue;
    checked++;
    if (Math.abs(t[i] - t[i - reach] - reach * usual) > 1.05 * quantum) off++;
  }
  return off <= 0.02 * checked;
}

/** Stamps so coarse that several samples share one: steps are nothing or one unit, but for gaps. */
function isCoarse(t: Float64Array, shape: Omit<StepCounts, 'forward'>, quantum: number): boolean {
  if (shape.zero / shape.count <= settings.burst || shape.backward > 0.001 * shape.count) return false;
  let ones = 0;
  let forward = 0;
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (step <= 0) continue;
    forward++;
    if (step < 1.5 * quantum) ones++;
  }
  return ones >= 0.9 * forward;
}

/** The step between samples as far as gaps and rounding leave it visible. */
function usualStep(t: Float64Array, shape: StepShape, shared: boolean): number {
  const { bounds, count: steps } = shape;
  // Where even the longest step counts by the shortest, all do.
  if (!shared && bounds !== undefined && bounds.most <= 3 * bounds.least) return factsOf(t).stepSum / steps;
  const most = shared ? 10 * shape.forwardHigh : 3 * Math.max(shape.median, 0);
  let sum = 0;
  let count = 0;
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (step > most || step < -most) continue;
    sum += step;
    count++;
  }
  return count > 0 && sum > 0 ? sum / count : shape.forwardMedian;
}

function gapLimit(
  t: Float64Array,
  shape: StepShape,
  quantum: number,
  usual: number,
  coarse: boolean,
  bursts: boolean,
): number {
  if (coarse) return usual + 1.5 * quantum;
  if (bursts) return Math.max(settings.gapSteps * usual, 4 * shape.forwardHigh);
  const limit = Math.max(settings.gapSteps * usual, usual + 1.001 * quantum);
  if (factsOf(t).mostStep <= limit) return limit;
  let long = 0;
  for (let i = 1; i < t.length; i++) if (t[i] - t[i - 1] > limit) long++;
  return long > settings.unevenShare * shape.count && long > 20 && !areOthersEven(t, limit)
    ? Math.max(limit, settings.unevenGapSteps * usual)
    : limit;
}

/** Whether steps short of the limit are even, so that the long ones are losses and not part of a spread. */
function areOthersEven(t: Float64Array, limit: number): boolean {
  let sum = 0;
  let squares = 0;
  let count = 0;
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (step > limit) continue;
    sum += step;
    squares += step * step;
    count++;
  }
  const mean = sum / count;
  return Math.sqrt(Math.max(0, squares / count - mean * mean)) < settings.jitter.resample * mean;
}

/** Samples a second over the unbroken spans: steps over duration, and by edges or by a line where stamps are shared. */
function rateOf(
  t: Float64Array,
  spans: readonly Span[],
  resolution: number,
  quantum: number,
  coarse: boolean,
  bursts: boolean,
  held: boolean,
): number | undefined {
  let steps = 0;
  let duration = 0;
  for (const { from, to } of spans) {
    if (to - from < 2) continue;
    let first = from;
    let last = to - 1;
    if (coarse && quantum > settings.coarse * (t[last] - t[first])) {
      while (first + 1 < to && t[first + 1] === t[first]) first++;
      while (last > first && t[last - 1] === t[last]) last--;
      // The stamp changes between a row and the next: count from edge to edge.
      first++;
    }
    if (last <= first || !(t[last] > t[first])) continue;
    const count = held && !coarse ? movingSteps(t, first, last) : last - first;
    steps += count;
    duration += bursts ? count * slope(t, from, to) : toDigits(t[last] - t[first], resolution);
  }
  return bursts ? (steps > 0 && duration > 0 ? steps / duration : undefined) : rateOver(steps, duration, resolution);
}

/**
 * Samples a second of so many steps in so many s; undefined of none.
 * @param duration sum of differences of stamps, as their digits have them
 * @param resolution one unit of the stamps' last digit in s
 */
export function rateOver(steps: number, duration: number, resolution: number): number | undefined {
  if (!(steps > 0 && duration > 0)) return undefined;
  const units = Math.round(1 / resolution);
  // In whole units of the stamps the quotient is rounded once only: 100 Hz is then 100 and not 99.99999999999999.
  const whole = Math.round(duration * units);
  return Math.abs(whole / units - duration) < 1e-9 * duration ? (steps * units) / whole : steps / duration;
}

/** A difference of two stamps as their digits have it, without the rounding of two large doubles. */
export function toDigits(difference: number, resolution: number): number {
  const units = Math.round(difference / resolution);
  const exact = units / Math.round(1 / resolution);
  return Math.abs(exact - difference) < 0.3 * resolution ? exact : difference;
}

/** Slope of the least-squares line of the stamps over their index, in s a sample. */
function slope(t: Float64Array, from: number, to: number): number {
  const n = to - from;
  const middle = (n - 1) / 2;
  let top = 0;
  let bottom = 0;
  for (let i = 0; i < n; i++) {
    top += (i - middle) * (t[from + i] - t[from]);
    bottom += (i - middle) ** 2;
  }
  return top / bottom;
}

/**
 * Stretches with their start in time. After a reset of the clock nobody knows how long it stood: it goes straight on.
 * @param isUneven whether samples keep their own times, which may run past those of even ones
 */
function stretchesOf(
  t: Float64Array,
  spans: readonly Span[],
  breaks: readonly Break[],
  rate: number,
  isUneven = false,
): Stretch[] {
  const stretches: Stretch[] = [];
  let shift = -t[0];
  let end = 0;
  for (const [s, { from, to }] of spans.entries()) {
    if (s > 0 && breaks[s - 1].reset) shift = end - t[from];
    const missing = s === 0 ? undefined : breaks[s - 1].missing;
    const start = s === 0 ? 0 : missing === undefined ? Math.max(end, t[from] + shift) : end + missing / rate;
    stretches.push({ from, to, start });
    end = start + Math.max((to - from) / rate, isUneven ? lengthOf(t, from, to) : 0);
  }
  return stretches;
}

/** From the first stamp to the latest one, in s. */
function lengthOf(t: Float64Array, from: number, to: number): number {
  let length = 0;
  for (let i = from; i < to; i++) length = Math.max(length, t[i] - t[from]);
  return length;
}

function timesOf(t: Float64Array, stretches: readonly Stretch[]): Float64Array {
  const times = new Float64Array(t.length);
  let latest = 0;
  for (const { from, to, start } of stretches) {
    for (let i = from; i < to; i++) {
      // A stamp that runs back a little is held, so that times never decrease.
      latest = Math.max(latest, start + (t[i] - t[from]));
      times[i] = latest;
    }
  }
  return times;
}
