import type { Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import {
  converterStep,
  inGravity,
  measured,
  timeSpans,
  type Check,
  type CheckedChannel,
  type CheckedRun,
} from './checked.ts';
import { extremeOf, logChance, usualHold, type Extreme } from './plateaus.ts';

/**
 * Samples that stand in a plateau at the largest or smallest value, or at the end of the stated range: the sensor was
 * overdriven. What coarse steps, a slow top or a reading that is held would do by themselves is none.
 */
export const clipping: Check = (run) => {
  return measured(run).flatMap((channel) => {
    const { samples } = channel;
    const ends = endsOf(samples);
    if (!(ends[1] > ends[0])) return [];
    const sides = ([1, -1] as const).flatMap((side) => cutAt(run, channel, side, ends) ?? []);
    const spans = sides.flatMap((one) => one.spans).sort((one, other) => one.from - other.from);
    const count = spans.reduce((sum, { from, to }) => sum + to - from, 0);
    return count < 2 ? [] : [clippedAt(run, channel, count, spans, sides[0].at)];
  });
};

function endsOf(samples: Float64Array): [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < samples.length; i++) {
    if (samples[i] < low) low = samples[i];
    if (samples[i] > high) high = samples[i];
  }
  return [low, high];
}

/** Where a channel is cut off, and at which value. */
interface Cut {
  readonly at: number;
  readonly spans: readonly { from: number; to: number }[];
}

function cutAt(
  run: CheckedRun,
  channel: CheckedChannel,
  side: 1 | -1,
  ends: readonly [number, number],
): Cut | undefined {
  const { samples } = channel;
  const range = ends[1] - ends[0];
  const fine = converterStep(samples);
  const step = Math.max(fine, 1e-6 * range);
  const extreme = extremeOf(run, samples, side, { step, ends });
  const at = extreme.value;
  if (isCut(channel, extreme, { step, ends })) return { at, spans: extreme.plateaus };
  // A sensor that is overdriven before its converter stops at nearly one value, with noise on it.
  const near = settings.clipping.near * range;
  if (fine >= near / 2 || !heapedAt(samples, at, -side * near)) return undefined;
  const spans = spansWhere(samples, (value) => side * (at - value) < near);
  const isDwell = spans.some(({ from, to }) => to - from > 2);
  return isDwell || spans.length <= settings.clipping.lone * extreme.tops ? { at, spans } : undefined;
}

/** Whether a channel's samples stop at an extreme. */
function isCut(
  channel: CheckedChannel,
  extreme: Extreme,
  { step, ends }: { readonly step: number; readonly ends: readonly number[] },
): boolean {
  const { value, plateaus, tops } = extreme;
  const end = rangeEnd(channel, value);
  if (end === 'stated') return extreme.samples > 1;
  // Where a channel stands for most of the time it is at rest.
  if (extreme.samples > channel.samples.length / 2) return false;
  const { chance, chanceAtEnd, lone } = settings.clipping;
  const found = logChance(extreme, step, usualHold(channel.samples, ends));
  const isPlateau = plateaus.some(({ from, to }) => to - from > 1);
  // Lone samples count where they are a heap and other tops stay below: a tone in step with the rate has only such tops.
  if (!isPlateau && plateaus.length > lone * tops) return false;
  return found < Math.log(isPlateau && end === 'usual' ? chanceAtEnd : chance);
}

/** Whether far more samples lie within a step of an extreme than in the steps inside of it; a pure tone has 2.4 times as many there. */
function heapedAt(samples: Float64Array, extreme: number, inward: number): boolean {
  const counts = [0, 0, 0, 0];
  for (let i = 0; i < samples.length; i++) {
    const bin = Math.floor((samples[i] - extreme) / inward);
    if (bin < 4) counts[Math.max(0, bin)]++;
  }
  const { heap, heapExcess } = settings.clipping;
  return counts[0] >= heap && counts[0] >= heapExcess * Math.max(1, counts[1], counts[2], counts[3]);
}

/** Whether a value is the end of the range that the file states, or lies within 1 % of that of a usual one. */
function rangeEnd(channel: CheckedChannel, value: number): 'stated' | 'usual' | undefined {
  const { ranges, range } = settings.clipping;
  const reaches = (end: number, reading: number): boolean => reading >= range * end && reading <= 1.001 * end;
  const size = inGravity(channel);
  if (size === undefined) return undefined;
  if (channel.range !== undefined && reaches(channel.range, Math.abs(value) * size)) return 'stated';
  return ranges.some((end) => reaches(end, Math.abs(value) * size)) ? 'usual' : undefined;
}

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
  const judged = {
    value: share,
    threshold: share > fault ? fault : 0,
    channel: name,
    spans: timeSpans(run, spans),
    lost: spans.reduce((sum, span) => sum + lostTop(samples, span), 0) / run.rate,
  };
  return finding('clipped', share > fault ? 'fault' : 'warning', facts, judged);
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
