import type { Finding } from '../recording.ts';
import { factsOf, nearEnds } from '../columnFacts.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import {
  converterStep,
  inGravity,
  measured,
  stepBound,
  timeSpans,
  type Check,
  type CheckedChannel,
  type CheckedRun,
} from './checked.ts';
import { extremeOf, isWithinTops, logChance, usualHold, type Extreme } from './plateaus.ts';
import { logOf } from '../../numbers/logarithm.ts';

/**
 * Samples that stand in a plateau at the largest or smallest value, or at the end of the stated range: the sensor was
 * overdriven. What coarse steps, a slow top or a reading that is held would do by themselves is none.
 */
export const clipping: Check = (run) => {
  return measured(run).flatMap((channel) => {
    const { samples } = channel;
    const { low, high } = factsOf(samples);
    const ends = [low, high] as const;
    if (!(ends[1] > ends[0])) return [];
    const crowds = crowdsAt(samples, ends);
    const sides = ([1, -1] as const).flatMap(
      (side) => cutAt(run, channel, side, { ends, crowd: crowds[side > 0 ? 1 : 0] }) ?? [],
    );
    const spans = sides.flatMap((one) => one.spans).sort((one, other) => one.from - other.from);
    const count = spans.reduce((sum, { from, to }) => sum + to - from, 0);
    if (count < 1) return [];
    const [{ at, isChance }] = sides;
    if (sides.length === 1 && isChance) {
      const facts = { channel: channel.name, unit: channel.unit, count, at };
      return [finding('extreme-alike', 'note', facts, { channel: channel.name, spans: timeSpans(run, spans) })];
    }
    return [clippedAt(run, channel, count, spans, at)];
  });
};

/**
 * Whether so many samples of a channel stand at its ends, or are heaped there, that it may be a fault. They are counted in one
 * quick pass, those at an end and near it by a hair too many, those inside of a heap by a few too few.
 */
export function mayBeClipped({ samples }: CheckedChannel): boolean {
  const { low, high } = factsOf(samples);
  if (!(high > low)) return false;
  const { near, heap, heapExcess, fault } = settings.clipping;
  const range = high - low;
  const bin = near * range;
  const counts = nearEnds(samples, [1.001e-9 * range, 1.001 * bin, 1.01 * bin, 1.99 * bin]);
  const mostAt = ([atEnd, within, inside, farther]: readonly number[]): number =>
    within >= heap && within >= heapExcess * (farther - inside) ? within : atEnd;
  return (mostAt(counts.slice(0, 4)) + mostAt(counts.slice(4))) / samples.length > fault;
}

/** How many samples are as good as an extreme, and how many lie in the heap that a stop with noise on it would leave. */
interface Crowd {
  readonly atEnd: number;
  readonly near: number;
  /** Whether two of those at the extreme stand side by side. */
  readonly isJoined: boolean;
}

/** The crowds at the smallest and the largest value, in one pass. */
function crowdsAt(samples: Float64Array, [low, high]: readonly [number, number]): readonly [Crowd, Crowd] {
  const range = high - low;
  // A hair more than what is counted later, so that nothing at its rim is missed.
  const [reach, same] = [1.001 * settings.clipping.near * range, 1.001e-9 * range];
  const ofLow = { atEnd: 0, near: 0, isJoined: false, last: -2 };
  const ofHigh = { atEnd: 0, near: 0, isJoined: false, last: -2 };
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i];
    // Most samples lie between, so that two comparisons are all there is.
    if (value - low >= reach && high - value >= reach) continue;
    if (value - low < reach) countNear(ofLow, i, value - low <= same);
    if (high - value < reach) countNear(ofHigh, i, high - value <= same);
  }
  return [ofLow, ofHigh];
}

/** One more sample near an extreme, or at it. */
function countNear(
  crowd: { -readonly [K in keyof Crowd]: Crowd[K] } & { last: number },
  at: number,
  isAtEnd: boolean,
): void {
  crowd.near++;
  if (!isAtEnd) return;
  crowd.atEnd++;
  if (crowd.last === at - 1) crowd.isJoined = true;
  crowd.last = at;
}

/** Where a channel is cut off, and at which value. */
interface Cut {
  readonly at: number;
  readonly spans: readonly { from: number; to: number }[];
  /** Whether it may have come about by chance in one of many channels. */
  readonly isChance: boolean;
}

function cutAt(
  run: CheckedRun,
  channel: CheckedChannel,
  side: 1 | -1,
  { ends, crowd }: { readonly ends: readonly [number, number]; readonly crowd: Crowd },
): Cut | undefined {
  const { samples } = channel;
  const range = ends[1] - ends[0];
  const at = ends[side > 0 ? 1 : 0];
  if (mayBeCut(channel, at, crowd)) {
    const step = Math.max(converterStep(samples), 1e-6 * range);
    const extreme = extremeOf(run, samples, side, { step, ends });
    if (isCut(run, channel, extreme, { side, step, ends }))
      return { at, spans: extreme.plateaus, isChance: isChance(channel, extreme, { step, ends }) };
  }
  // A sensor that is overdriven before its converter stops at nearly one value, with noise on it.
  const near = settings.clipping.near * range;
  // Nor is a channel overdriven where it lies for most of the time, as a shock's rest is beside its pulse.
  if (crowd.near > samples.length / 2) return undefined;
  if (crowd.near < settings.clipping.heap || !heapedAt(samples, at, -side * near)) return undefined;
  if (stepBound(samples) >= near / 2 && converterStep(samples) >= near / 2) return undefined;
  const spans = spansWhere(samples, (value) => side * (at - value) < near);
  const isDwell = spans.some(({ from, to }) => to - from > 2);
  const { lone } = settings.clipping;
  return isDwell || isWithinTops(spans.length, lone, run, samples, side) ? { at, spans, isChance: false } : undefined;
}

/**
 * Whether a closer look could find that samples stop at an extreme: of a few that stand there one by one it says by their
 * count alone how unlikely they are, and that they are no more unlikely than 1/2 for each but the first.
 */
function mayBeCut(channel: CheckedChannel, at: number, { atEnd, isJoined }: Crowd): boolean {
  // A lone sample at the extreme is no plateau, but where the file says that nothing lies beyond.
  if (isAtStated(channel, at)) return true;
  return atEnd > 1 && (isJoined || (atEnd - 1) * Math.LN2 > -logOf(settings.clipping.chance));
}

/** Whether a channel's samples stop at an extreme. */
function isCut(
  run: CheckedRun,
  channel: CheckedChannel,
  extreme: Extreme,
  { side, step, ends }: { readonly side: 1 | -1; readonly step: number; readonly ends: readonly number[] },
): boolean {
  const { value, plateaus } = extreme;
  if (isAtStated(channel, value)) return true;
  // Where a channel stands for most of the time it is at rest.
  if (extreme.samples > channel.samples.length / 2) return false;
  const { chance, chanceAtEnd, lone } = settings.clipping;
  const isPlateau = plateaus.some(({ from, to }) => to - from > 1);
  // How long a reading is held says something of plateaus alone.
  const found = logChance(extreme, step, isPlateau ? usualHold(channel.samples, ends) : 1);
  const limit = logOf(isPlateau && isNearEnd(channel, value) ? chanceAtEnd : chance);
  // Lone samples count where they are a heap and other tops stay below: a tone in step with the rate has only such tops.
  return found < limit && (isPlateau || isWithinTops(plateaus.length, lone, run, channel.samples, side));
}

/** Whether one plateau of a few samples is all that speaks for a cut, where no range is known to end: one of many channels has such a top. */
function isChance(
  channel: CheckedChannel,
  extreme: Extreme,
  { step, ends }: { readonly step: number; readonly ends: readonly number[] },
): boolean {
  const { alone, chanceAlone } = settings.clipping;
  if (extreme.samples > alone || isAtStated(channel, extreme.value) || isNearEnd(channel, extreme.value)) return false;
  if (extreme.plateaus.filter(({ from, to }) => to - from > 1).length !== 1) return false;
  return logChance(extreme, step, usualHold(channel.samples, ends)) >= logOf(chanceAlone);
}

/** Whether far more samples lie within a step of an extreme than in the steps inside of it; a pure tone has 2.4 times as many there. */
function heapedAt(samples: Float64Array, extreme: number, inward: number): boolean {
  const counts = [0, 0, 0, 0];
  // A hair farther than the last bin reaches.
  const far = 4.001 * Math.abs(inward);
  for (let i = 0; i < samples.length; i++) {
    if (Math.abs(samples[i] - extreme) > far) continue;
    const bin = Math.floor((samples[i] - extreme) / inward);
    if (bin < 4) counts[Math.max(0, bin)]++;
  }
  const { heap, heapExcess } = settings.clipping;
  return counts[0] >= heap && counts[0] >= heapExcess * Math.max(1, counts[1], counts[2], counts[3]);
}

/** Whether a value lies within 1 % of the end of the range that the file states, or of a usual one. */
function isNearEnd(channel: CheckedChannel, value: number): boolean {
  const { ranges, range } = settings.clipping;
  const size = inGravity(channel);
  if (size === undefined) return false;
  const reading = Math.abs(value) * size;
  return [channel.range ?? NaN, ...ranges].some((end) => reading >= range * end && reading <= beyond * end);
}

/** Whether a value is the end of the range that the file states, or one step short of it as in two's complement. */
function isAtStated(channel: CheckedChannel, value: number): boolean {
  const size = inGravity(channel);
  if (size === undefined || channel.range === undefined) return false;
  const [reading, end] = [Math.abs(value) * size, channel.range];
  // Coarse steps of a few values reach farther than any converter's last one.
  if (reading < settings.clipping.range * end || reading > beyond * end) return false;
  return reading >= end - Math.max(settings.clipping.last * converterStep(channel.samples) * size, 1e-6 * end);
}

/** A reading that is rounded may lie so far past the end of a range, as a share of it. */
const beyond = 1.001;

function spansWhere(samples: Float64Array, test: (value: number) => boolean): { from: number; to: number }[] {
  const spans: { from: number; to: number }[] = [];
  for (let i = 0; i < samples.length; i++) {
    if (!test(samples[i])) continue;
    const last = spans.at(-1);
    if (last?.to === i) last.to = i + 1;
    else spans.push({ from: i, to: i + 1 });
  }
  return spans;
}

function clippedAt(
  run: CheckedRun,
  { name, samples, unit }: CheckedChannel,
  count: number,
  spans: { from: number; to: number }[],
  at: number,
): Finding {
  const share = count / samples.length;
  const { fault } = settings.clipping;
  const facts = { channel: name, unit, count, share, at };
  const basis = {
    value: share,
    threshold: share > fault ? fault : 0,
    channel: name,
    spans: timeSpans(run, spans),
    lost: spans.reduce((sum, span) => sum + lostTop(samples, span), 0) / run.rate,
  };
  return finding('clipped', share > fault ? 'fault' : 'warning', facts, basis);
}

/**
 * Sum of squares of what was cut off at one plateau, in samples: that of a parabola over it (8/15 h^2 T), whose height h is a quarter
 * of its length T by the slope at its ends. The signal fell half a step, on average, before the sample beside the plateau.
 */
function lostTop(samples: Float64Array, { from, to }: { readonly from: number; readonly to: number }): number {
  const falls = [
    samples[from] - (samples[from - 1] ?? samples[from]),
    samples[to - 1] - (samples[to] ?? samples[to - 1]),
  ];
  const slope = Math.abs(falls[0]) + Math.abs(falls[1]);
  const height = (slope * (to - from)) / 4;
  return (8 / 15) * height ** 2 * (to - from);
}
