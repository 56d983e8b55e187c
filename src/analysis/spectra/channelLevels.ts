import { levels, moments, vibrationDose, type Levels, type Moments } from '../../signal/levels.ts';
import { resultantLevels, type ResultantLevels } from '../../signal/resultant.ts';
import { axesOf, sampledFor, type Channel, type Run } from '../../values/run.ts';
import { isAcceleration } from '../recordings/dimensions.ts';

/** What every channel has, and what a signal alone has. */
export type ChannelLevels = ResultantLevels & Partial<Levels>;

/**
 * Levels of a channel in its unit, of a resultant those of the vector of its axes.
 * @param scratch room for as many values as the channel has samples
 * @param known moments of a signal's samples, where they are known already
 */
export const channelLevels = (channel: Channel, scratch: Float64Array, known?: Moments): ChannelLevels =>
  channel.axes === undefined
    ? levels(channel.samples, scratch, known)
    : resultantLevels(
        channel.axes.map(({ samples }) => samples),
        scratch,
      );

/** Mean square about the mean of each axis, in the channel's unit squared. @param known moments of a signal's samples, likewise */
export const powersOf = (channel: Channel, known?: Moments): number[] =>
  axesOf(channel).map(({ samples }) => (known ?? moments(samples)).m2);

/**
 * Vibration dose value in m/s^1.75; undefined of what is no acceleration, and of a resultant: ISO 2631-1:1997, 6.3.2 has a
 * dose of each axis, and none of several together.
 * @param known moments of the samples, where they are known already
 */
export function doseOf(run: Run, channel: Channel, known?: Moments): number | undefined {
  if (channel.axes !== undefined || !isAcceleration(channel.unit)) return undefined;
  const found = known ?? moments(channel.samples);
  return vibrationDose(found, found.count / sampledFor(run), channel.unit.factor);
}
