import { meanFree } from './delay.ts';
import { realFft } from './fft.ts';
import { cosOf } from '../numbers/trigonometry.ts';

/**
 * An unbroken piece without what lies above a frequency, its spectrum falling from all to nothing by half a cosine; no shift
 * and no ripple below. Beyond its ends the piece is continued by its mean.
 *
 * @param samples evenly spaced
 * @param from cycles a sample up to which all stays
 * @param to cycles a sample from which nothing does; more than `from`
 */
export function bandLimited(samples: Float64Array, from: number, to: number): Float64Array {
  let size = 4;
  while (size < samples.length + 4 / (to - from)) size *= 2;
  const plan = realFft(size);
  const padded = new Float64Array(size);
  const [re, im] = [new Float64Array(plan.bins), new Float64Array(plan.bins)];
  const free = meanFree(samples);
  padded.set(free);
  plan.forward(padded, re, im);
  for (let k = 0; k < plan.bins; k++) {
    const past = Math.min(1, Math.max(0, (k / size - from) / (to - from)));
    const share = 0.5 * (1 + cosOf(Math.PI * past));
    re[k] *= share;
    im[k] *= share;
  }
  plan.inverse(re, im, padded);
  const mean = samples.length === 0 ? 0 : samples[0] - free[0];
  return padded.subarray(0, samples.length).map((value) => value + mean);
}
