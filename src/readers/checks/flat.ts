import type { Finding } from '../recording.ts';
import { factsOf } from '../columnFacts.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { measured, timeSpans, type Check, type CheckedChannel, type CheckedRun } from './checked.ts';
import { usualLength } from './plateaus.ts';

interface Held {
  readonly from: number;
  readonly to: number;
}

/** Values that stand still for longer than the signal and the converter let expect: a loose plug, a stuck sensor. */
export const flat: Check = (run) =>
  measured(run).flatMap((channel) => {
    const { samples, name } = channel;
    const { isWhole, low, high, longestHeld } = factsOf(samples);
    // No value is held for long enough, wherever the stretches end.
    if (isWhole && low < high && longestHeld < settings.flat.samples) return [];
    const values = runsOfOneValue(run, samples);
    if (values.count === 1 && run.stretches.length === 1) {
      const basis = { value: samples.length, threshold: settings.flat.samples, channel: name };
      return [finding('flat', 'fault', { channel: name, value: samples[0] }, basis)];
    }
    return stuck(run, channel, values);
  });

/** Whether a channel may be one value from end to end, which alone is a fault. */
export function mayBeFlat({ samples }: CheckedChannel): boolean {
  const { low, high } = factsOf(samples);
  return !(low < high);
}

/** Values held for one sample or more: how many, how often each length occurs, and where those lie that are worth a look. */
interface HeldValues {
  readonly count: number;
  readonly lengths: ReadonlyMap<number, number>;
  readonly long: readonly Held[];
}

function runsOfOneValue({ stretches }: CheckedRun, samples: Float64Array): HeldValues {
  const lengths = new Map<number, number>();
  const long: Held[] = [];
  let count = 0;
  let single = 0;
  for (const { from, to } of stretches) {
    let start = from;
    for (let i = from + 1; i <= to; i++) {
      if (i < to && samples[i] === samples[start]) continue;
      const length = i - start;
      count++;
      // Nearly all are of one sample.
      if (length === 1) single++;
      else lengths.set(length, (lengths.get(length) ?? 0) + 1);
      if (length > settings.flat.samples) long.push({ from: start, to: i });
      start = i;
    }
  }
  if (single > 0) lengths.set(1, single);
  return { count, lengths, long };
}

function stuck(run: CheckedRun, { samples, name }: CheckedChannel, values: HeldValues): Finding[] {
  if (values.long.length === 0) return [];
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < samples.length; i++) {
    low = Math.min(low, samples[i]);
    high = Math.max(high, samples[i]);
  }
  const most = Math.max(settings.flat.samples, settings.flat.times * usualLength(values.lengths, values.count));
  // At the extremes it is clipping, which has a check of its own.
  const long = values.long.filter(({ from, to }) => to - from > most && samples[from] > low && samples[from] < high);
  if (long.length === 0) return [];
  const longest = long.reduce((best, one) => (one.to - one.from > best.to - best.from ? one : best));
  const count = longest.to - longest.from;
  const facts = { channel: name, spans: long.length, samples: count, seconds: count / run.rate };
  const basis = { value: count, threshold: most, channel: name, spans: timeSpans(run, long) };
  return [finding('stuck', 'warning', facts, basis)];
}

/** Rows that repeat every axis of the row before: the logger asks more often than the sensor measures. */
export const heldReadings: Check = (run) => {
  const axes = measured(run);
  // One axis of a coarse converter repeats by itself; three do not.
  if (axes.length < 2) return [];
  const [{ samples: first }, ...others] = axes;
  let repeats = 0;
  let steps = 0;
  for (const { from, to } of run.stretches) {
    for (let i = from + 1; i < to; i++) {
      steps++;
      if (first[i] === first[i - 1] && others.every(({ samples }) => samples[i] === samples[i - 1])) repeats++;
    }
  }
  const share = repeats / Math.max(steps, 1);
  if (share <= settings.held || share === 1) return [];
  const facts = { share, rate: run.rate, sensorRate: run.rate * (1 - share) };
  return [finding('readings-repeat', 'warning', facts, { value: share, threshold: settings.held })];
};
