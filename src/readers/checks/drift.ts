import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { inGravity, meanOf, measured, type Check, type CheckedRun } from './checked.ts';
import { lineThrough } from './stationarity.ts';

/** A line through each axis that leaves its place by more than 0.05 g: the mount tilts or the sensor warms up. */
export const drift: Check = (run) =>
  measured(run).flatMap((channel) => {
    const size = inGravity(channel);
    const means = size === undefined ? [] : secondMeans(run, channel.samples);
    if (size === undefined || means.length < 6) return [];
    const { slope, t } = lineThrough(means);
    const change = slope * (means.length - 1) * size;
    // Strong vibration lets the means wander by themselves.
    if (Math.abs(change) <= settings.drift || Math.abs(t) <= settings.driftT) return [];
    const { name } = channel;
    const basis = { value: change, threshold: settings.drift, channel: name };
    return [finding('drift', 'warning', { channel: name, change }, basis)];
  });

/** Means of whole seconds, none across a gap. */
function secondMeans({ stretches, rate }: CheckedRun, samples: Float64Array): number[] {
  const length = Math.max(1, Math.round(rate));
  const means: number[] = [];
  for (const { from, to } of stretches) {
    for (let start = from; start + length <= to; start += length) means.push(meanOf(samples, start, start + length));
  }
  return means;
}
