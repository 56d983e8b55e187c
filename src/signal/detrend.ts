import { moments } from './levels.ts';
import type { Stretch } from './stretch.ts';

/**
 * Takes the mean out of a signal.
 *
 * @param samples at least one, all finite
 * @param into receives the samples less their mean; may be the samples themselves
 * @returns the mean, in the signal's unit
 */
export function removeMean(samples: Float64Array, into: Float64Array): number {
  const { mean } = moments(samples);
  for (let i = 0; i < samples.length; i++) into[i] = samples[i] - mean;
  return mean;
}

/** A straight line a + b t, t in s. */
export interface Line {
  readonly offset: number;
  readonly slope: number;
}

/**
 * Takes the least-squares line out of a signal: one line for all stretches, each at its own time, so that a gap does
 * not bend it.
 *
 * @param samples of all stretches, one after another
 * @param into receives the samples less the line; may be the samples themselves
 * @param stretches the unbroken pieces, which together hold all samples
 * @param rate in Hz
 * @returns the line, in the signal's unit and per s
 * @throws RangeError for stretches that do not hold all samples
 */
export function removeLine(
  samples: Float64Array,
  into: Float64Array,
  stretches: readonly Stretch[],
  rate: number,
): Line {
  const { mean } = moments(samples);
  let count = 0;
  let timeSum = 0;
  for (const { from, to, start } of stretches) {
    count += to - from;
    timeSum += (to - from) * (start + (to - from - 1) / (2 * rate));
  }
  if (count !== samples.length)
    throw new RangeError(`the stretches hold ${count} samples, the signal ${samples.length}`);
  const middle = timeSum / count;
  let product = 0;
  let square = 0;
  for (const { from, to, start } of stretches) {
    for (let i = from; i < to; i++) {
      const t = start - middle + (i - from) / rate;
      product += t * (samples[i] - mean);
      square += t * t;
    }
  }
  const slope = square === 0 ? 0 : product / square;
  for (const { from, to, start } of stretches) {
    for (let i = from; i < to; i++) into[i] = samples[i] - mean - slope * (start - middle + (i - from) / rate);
  }
  return { offset: mean - slope * middle, slope };
}
