import type { Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import {
  alike,
  converterStep,
  inGravity,
  measured,
  timeSpans,
  type Check,
  type CheckedChannel,
  type CheckedRun,
} from './checked.ts';

/** Samples that pile up at the largest or smallest value, or stand at the end of a usual range: the sensor was overdriven. */
export const clipping: Check = (run) =>
  measured(run).flatMap((channel) => {
    const { samples } = channel;
    let low = Infinity;
    let high = -Infinity;
    for (let i = 0; i < samples.length; i++) {
      if (samples[i] < low) low = samples[i];
      if (samples[i] > high) high = samples[i];
    }
    if (!(high > low)) return [];
    const range = high - low;
    const step = Math.max(converterStep(samples), 1e-6 * range);
    const piled = [piledAt(samples, high, -step, range), piledAt(samples, low, step, range)];
    // A sensor that is overdriven before its converter stops at nearly one value, with noise on it.
    const near = settings.clipping.near * range;
    const fine = converterStep(samples) < near / 2;
    const soft = [
      !piled[0] && fine && heapedAt(samples, high, -near),
      !piled[1] && fine && heapedAt(samples, low, near),
    ];
    const rail = railOf(channel, Math.max(Math.abs(high), Math.abs(low)));
    const clipped = (value: number): boolean =>
      (piled[0] && alike(value, high, range)) ||
      (piled[1] && alike(value, low, range)) ||
      (soft[0] && value > high - near) ||
      (soft[1] && value < low + near) ||
      (rail !== undefined && Math.abs(value) >= rail);
    const spans = spansWhere(samples, clipped);
    const count = spans.reduce((sum, { from, to }) => sum + to - from, 0);
    // A single sample may reach the end of a range by chance.
    return count < 2
      ? []
      : [clippedAt(run, channel, count, spans, piled[0] || soft[0] ? high : piled[1] || soft[1] ? low : rail!)];
  });

/** Whether more samples stand at an extreme than the ones just inside of it let expect. */
function piledAt(samples: Float64Array, extreme: number, inward: number, range: number): boolean {
  const counts = [0, 0, 0, 0];
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i];
    if (alike(value, extreme, range)) counts[0]++;
    else {
      const bin = Math.round((value - extreme) / inward);
      if (bin >= 1 && bin <= 3) counts[bin]++;
    }
  }
  const { samples: least, excess } = settings.clipping;
  return counts[0] >= least && counts[0] >= excess * Math.max(1, counts[1], counts[2], counts[3]);
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

/** 0.99 of the standard range in g that the largest reading reaches but does not pass, in the channel's unit. */
function railOf(channel: CheckedChannel, largest: number): number | undefined {
  const size = inGravity(channel);
  if (size === undefined) return undefined;
  const { ranges, range } = settings.clipping;
  const end = ranges.find((one) => largest * size >= range * one && largest * size <= 1.001 * one);
  return end === undefined ? undefined : (range * end) / size;
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
  return finding('clipped', share > fault ? 'fault' : 'warning', facts, {
    value: share,
    threshold: share > fault ? fault : 0,
    channel: name,
    spans: timeSpans(run, spans),
  });
}
