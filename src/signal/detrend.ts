import { moments } from './levels.ts';
import type { Stretch } from './stretch.ts';

/** Writes the samples less their mean into `into`, which may be the samples themselves; gives the mean. */
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
 * Writes the samples less their least-squares line into `into`, which may be the samples themselves; gives the
 * line. One line for all stretches, each at its own time, so that a gap does not bend it.
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
