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
 * Takes the least-squares line out of a signal: one line for all stretches, each sample at its own time, so that
 * neither a gap nor uneven sampling bends it.
 *
 * @param samples of all stretches, one after another
 * @param into receives the samples less the line; may be the samples themselves
 * @param stretches the unbroken pieces, which together hold all samples
 * @param rate in Hz
 * @param times one a sample, in s from the recording's first, where they were not taken evenly
 * @returns the line, in the signal's unit and per s
 * @throws RangeError for stretches that do not hold all samples
 */
export function removeLine(
  samples: Float64Array,
  into: Float64Array,
  stretches: readonly Stretch[],
  rate: number,
  times?: Float64Array,
): Line {
  const { mean } = moments(samples);
  const count = stretches.reduce((sum, { from, to }) => sum + to - from, 0);
  if (count !== samples.length)
    throw new RangeError(`the stretches hold ${count} samples, the signal ${samples.length}`);
  const timeOf = ({ from, start }: Stretch, i: number): number => times?.[i] ?? start + (i - from) / rate;
  let middle = 0;
  for (const stretch of stretches) for (let i = stretch.from; i < stretch.to; i++) middle += timeOf(stretch, i) / count;
  let product = 0;
  let square = 0;
  for (const stretch of stretches) {
    for (let i = stretch.from; i < stretch.to; i++) {
      const t = timeOf(stretch, i) - middle;
      product += t * (samples[i] - mean);
      square += t * t;
    }
  }
  const slope = square === 0 ? 0 : product / square;
  for (const stretch of stretches) {
    for (let i = stretch.from; i < stretch.to; i++) into[i] = samples[i] - mean - slope * (timeOf(stretch, i) - middle);
  }
  return { offset: mean - slope * middle, slope };
}
