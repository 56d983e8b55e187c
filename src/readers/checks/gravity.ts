import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { inGravity, meanOf, type Check, type CheckedRun } from './checked.ts';

/** Mean of x, y and z in g, or undefined where one is missing, has no unit of acceleration or had its mean taken out. */
export function meanVector({ channels }: CheckedRun): readonly [number, number, number] | undefined {
  const mean = (name: string): number | undefined => {
    const channel = channels.find((one) => one.name === name && one.axis && one.includesStatic !== false);
    const size = channel && inGravity(channel);
    return channel && size !== undefined && channel.samples.length > 0 ? meanOf(channel.samples) * size : undefined;
  };
  const [x, y, z] = [mean('x'), mean('y'), mean('z')];
  return x === undefined || y === undefined || z === undefined ? undefined : [x, y, z];
}

/** Whether the mean vector is 1 g long, as it is at rest and on average in a run. */
export const gravity: Check = (run) => {
  const vector = meanVector(run);
  if (!vector) return [];
  const length = Math.hypot(...vector);
  const { warningLow, warningHigh, faultLow, faultHigh, none } = settings.norm;
  if (length >= warningLow && length <= warningHigh) return [];
  if (length < none) {
    return [finding('no-gravity', 'note', { length }, { value: length, threshold: none })];
  }
  const fault = length < faultLow || length > faultHigh;
  const threshold = length < 1 ? (fault ? faultLow : warningLow) : fault ? faultHigh : warningHigh;
  return [finding('gravity', fault ? 'fault' : 'warning', { length }, { value: length, threshold })];
};
