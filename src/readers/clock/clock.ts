import type { Stretch } from '../../signal/stretch.ts';
import { settings } from '../settings.ts';
import { missingSamples } from './missing.ts';
import { leastRate, neighbourStep, rateAcross } from './losses.ts';
import { median, stampQuantum, stepShape, type StepShape } from './steps.ts';

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
  /** Rate in Hz that the true one is not below, where stamps are about as coarse as the step; else 0. */
  readonly least: number;
  /** From the first stamp to the last, in s. */
  readonly span: number;
}

interface Break {
  /** First row after the break. */
  readonly row: number;
  readonly reset: boolean;
}

/** Rate, gaps and unevenness of stamps in s, at least two and not all equal; `resolution` is one unit of their last digit, in s. */
export function clockOf(t: Float64Array, resolution: number): StampClock | undefined {
  const shape = stepShape(t);
  if (!(shape.forwardMedian > 0)) return undefined;
  const quantum = stampQuantum(t, resolution);
  const held = heldRows(t, shape);
  const zero = shape.zero - held.rows;
  const coarse = isCoarse(t, { ...shape, zero }, quantum);
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
  return isEven && losses.stretches.length < 0.5 * t.length ? losses : clockWith(t, shape, found);
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
  const breaks = findBreaks(t, usual, limit, bursts || coarse, bursts ? shape.forwardHigh : 0);
  const spans = spansOf(t.length, breaks);
  const ofSpans = rateOf(t, spans, resolution, quantum, coarse, bursts, held.rows > 0) ?? 1 / usual;
  const isPlain = !coarse && !bursts && held.rows === 0;
  const joins = [false, ...breaks.map(({ reset }) => !reset)];
  const isShort = isPlain && breaks.length > settings.refined * t.length;
  const rate = isShort ? rateAcross(t, spans, joins, ofSpans) : ofSpans;
  const spread = bursts || coarse ? { jitter: 0, rounded: coarse } : unevenness(t, spans, quantum, held.rows > 0);
  const stretches = stretchesOf(t, spans, breaks, rate);
  return {
    rate,
    stretches,
    jitter: spread.jitter,
    times: spread.jitter > settings.jitter.resample ? timesOf(t, stretches) : undefined,
    quantum,
    delivery: bursts ? 'bursts' : coarse ? 'coarse' : spread.rounded ? 'rounded' : 'even',
    missing: missingSamples(stretches, rate),
    repeated: shape.zero,
    backward: shape.backward,
    resets: breaks.filter(({ reset }) => reset).length,
    held,
    hidesLosses: isShort && quantum > 0.25 / rate,
    least: !bursts && held.rows === 0 && quantum > 0.25 / rate ? leastRate(t, quantum) : 0,
    span: t[t.length - 1] - t[0],
  };
}

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

/** Steps of a span less those of a clock that stood still. */
function movingSteps(t: Float64Array, first: number, last: number): number {
  let steps = 0;
  for (let i = first + 1; i <= last; i++) if (t[i] !== t[i - 1]) steps++;
  return steps;
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
function isCoarse(t: Float64Array, shape: StepShape, quantum: number): boolean {
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
  const most = shared ? 10 * shape.forwardHigh : 3 * Math.max(shape.median, 0) + 1e-12;
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
  let long = 0;
  for (let i = 1; i < t.length; i++) if (t[i] - t[i - 1] > limit) long++;
  return long > settings.unevenShare * shape.count && long > 20 && !alike(t, limit)
    ? Math.max(limit, settings.unevenGapSteps * usual)
    : limit;
}

/** Whether steps short of the limit are even, so that the long ones are losses and not part of a spread. */
function alike(t: Float64Array, limit: number): boolean {
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

function findBreaks(t: Float64Array, usual: number, limit: number, shared: boolean, burst: number): Break[] {
  const breaks: Break[] = [];
  const reset = -Math.max(1, 20 * usual, 4 * burst);
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (step < reset) breaks.push({ row: i, reset: true });
    else if (step > limit && (shared || isLoss(t, i, usual, limit))) breaks.push({ row: i, reset: false });
  }
  return breaks;
}

/** A stamp that was only late is followed by shorter steps; after a loss the stamps stay behind for good. */
function isLoss(t: Float64Array, row: number, usual: number, limit: number): boolean {
  const reach = 4;
  const side = (from: number, to: number, stop: (i: number) => boolean): number => {
    const offsets: number[] = [];
    const step = from < to ? 1 : -1;
    for (let i = from; i !== to && i >= 0 && i < t.length; i += step) {
      offsets.push(t[i] - i * usual);
      if (stop(i)) break;
    }
    return offsets.sort((a, b) => a - b)[offsets.length >> 1];
  };
  const before = side(row - 1, row - 1 - reach, (i) => i > 0 && t[i] - t[i - 1] > limit);
  const after = side(row, row + reach, (i) => i + 1 < t.length && t[i + 1] - t[i] > limit);
  return after - before > 0.5 * usual;
}

function spansOf(rows: number, breaks: readonly Break[]): { readonly from: number; readonly to: number }[] {
  const starts = [0, ...breaks.map(({ row }) => row)];
  return starts.map((from, i) => ({ from, to: starts[i + 1] ?? rows }));
}

/** Samples a second over the unbroken spans: steps over duration, and by edges or by a line where stamps are shared. */
function rateOf(
  t: Float64Array,
  spans: readonly { from: number; to: number }[],
  resolution: number,
  quantum: number,
  coarse: boolean,
  bursts: boolean,
  held: boolean,
): number | undefined {
  let steps = 0;
  let duration = 0;
  const units = Math.round(1 / resolution);
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
  if (!(steps > 0 && duration > 0)) return undefined;
  // In whole units of the stamps the quotient is rounded once only: 100 Hz is then 100 and not 99.99999999999999.
  const whole = Math.round(duration * units);
  return !bursts && Math.abs(whole / units - duration) < 1e-9 * duration ? (steps * units) / whole : steps / duration;
}

/** A difference of two stamps as their digits have it, without the rounding of two large doubles. */
function toDigits(difference: number, resolution: number): number {
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
 * Standard deviation of the steps over their mean with the rounding taken out: none where every step is one of the two
 * multiples of the quantum around the mean, else less the variance q²/6 of the difference of two rounding errors.
 */
function unevenness(
  t: Float64Array,
  spans: readonly { from: number; to: number }[],
  quantum: number,
  held: boolean,
): { jitter: number; rounded: boolean } {
  let count = 0;
  let sum = 0;
  for (const { from, to } of spans) {
    if (to - from < 2) continue;
    count += held ? movingSteps(t, from, to - 1) : to - from - 1;
    sum += t[to - 1] - t[from];
  }
  const mean = sum / count;
  if (!(mean > 0)) return { jitter: 0, rounded: false };
  const low = Math.floor(mean / quantum + 1e-9) * quantum;
  let explained = 0;
  let squares = 0;
  for (const { from, to } of spans) {
    for (let i = from + 1; i < to; i++) {
      const step = t[i] - t[i - 1];
      // Where the clock stood still it says nothing of the steps.
      if (held && step === 0) {
        explained++;
        continue;
      }
      // A stamp that runs back is false, and so are the steps beside it: they say nothing of the sampling.
      if (step < 0 || (i > from + 1 && t[i - 1] < t[i - 2]) || (i + 1 < to && t[i + 1] < t[i])) {
        explained++;
        continue;
      }
      squares += (step - mean) ** 2;
      if (step > low - 0.02 * quantum && step < low + 1.02 * quantum) explained++;
    }
  }
  const spread = Math.sqrt(squares / count) / mean;
  if (quantum > 0 && explained >= 0.995 * count && (held || isUniform(t, spans, mean, quantum)))
    return { jitter: 0, rounded: spread > settings.jitter.note };
  return { jitter: Math.sqrt(Math.max(0, squares / count - quantum ** 2 / 6)) / mean, rounded: false };
}

/** Whether every part of the recording keeps the mean step, as far as its rounding tells: else the rate itself changes. */
function isUniform(
  t: Float64Array,
  spans: readonly { from: number; to: number }[],
  mean: number,
  quantum: number,
): boolean {
  const block = settings.steady.steps;
  for (const { from, to } of spans) {
    for (let i = from; i + block < to; i += block) {
      const off = Math.abs(t[i + block] - t[i] - block * mean);
      if (off > 2 * quantum + settings.steady.share * block * mean) return false;
    }
  }
  return true;
}

/** Stretches with their start in time. After a reset of the clock nobody knows how long it stood: it goes straight on. */
function stretchesOf(
  t: Float64Array,
  spans: readonly { from: number; to: number }[],
  breaks: readonly Break[],
  rate: number,
): Stretch[] {
  const stretches: Stretch[] = [];
  let shift = -t[0];
  let end = 0;
  for (const [s, { from, to }] of spans.entries()) {
    if (s > 0 && breaks[s - 1].reset) shift = end - t[from];
    const start = s === 0 ? 0 : Math.max(end, t[from] + shift);
    stretches.push({ from, to, start });
    end = start + (to - from) / rate;
  }
  return stretches;
}

function timesOf(t: Float64Array, stretches: readonly Stretch[]): Float64Array {
  const times = new Float64Array(t.length);
  for (const { from, to, start } of stretches) {
    let latest = -Infinity;
    for (let i = from; i < to; i++) {
      // A stamp that runs back a little is held, so that times never decrease.
      latest = Math.max(latest, start + t[i] - t[from]);
      times[i] = latest;
    }
  }
  return times;
}
