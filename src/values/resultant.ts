import { listed } from '../result/words.ts';
import { moments } from '../signal/levels.ts';
import { resultantLength } from '../signal/resultant.ts';
import { axesOf, type Channel, type Resultant, type SensorUncertainty, type Signal } from './run.ts';

/**
 * The resultant of axes, told by what they have in common.
 * @param axes two or more at right angles, of one unit and length
 */
export function resultantOf(axes: readonly Signal[]): Resultant {
  const weighting = commonWeighting(axes);
  const calibrations = axes.flatMap(({ calibration }) => calibration ?? []);
  const lowCut = Math.max(...axes.map((axis) => axis.lowCut ?? 0));
  const highpass = Math.max(...axes.map((axis) => axis.highpass ?? 0));
  return {
    name: 'resultant',
    unit: axes[0].unit,
    unitFrom: listed([...new Set(axes.map(({ unitFrom }) => unitFrom))]),
    includesStatic: axes.some(({ includesStatic }) => includesStatic),
    ...(weighting === undefined ? {} : { weighting }),
    ...(lowCut === 0 ? {} : { lowCut }),
    ...(highpass === 0 ? {} : { highpass }),
    ...(calibrations.length === 0 ? {} : { calibration: ofResultant(calibrations) }),
    axes,
  };
}

/** Of axes with errors of one size, taken to be of one sensor; the largest stands for all. */
const ofResultant = (axes: readonly SensorUncertainty[]): SensorUncertainty => ({
  relative: Math.max(...axes.map(({ relative }) => relative)),
  sensor: listed([...new Set(axes.map(({ sensor }) => sensor))]),
  axis: listed([...new Set(axes.map(({ axis }) => axis))]),
});

function commonWeighting(axes: readonly Signal[]): string | undefined {
  const weightings = axes.map(({ weighting = 'unweighted' }) => weighting);
  const [first, ...others] = new Set(weightings);
  if (others.length > 0) return weightings.join('/');
  return first === 'unweighted' ? undefined : first;
}

/** A channel with another signal in place of each of its own: itself, or its axes. */
export const changed = (channel: Channel, change: (signal: Signal) => Signal): Channel =>
  channel.axes === undefined ? change(channel) : resultantOf(channel.axes.map(change));

/** What a channel is called where it is told for itself: `z`, or `resultant of x, y and z`. */
export const channelWords = ({ name, axes }: Channel): string =>
  axes === undefined ? name : `${name} of ${listed(axes.map((axis) => axis.name))}`;

/**
 * What is drawn of a channel over time, in its unit: its samples, or the length of the vector of its axes.
 * @param about the stretch whose means are taken from a resultant's axes
 */
export function drawnSamples(channel: Channel, about: Channel = channel): Float64Array {
  if (channel.axes === undefined) return channel.samples;
  return resultantLength(
    channel.axes.map(({ samples }) => samples),
    axesOf(about).map(({ samples }) => moments(samples).mean),
  );
}
