import { nextSmooth } from './bluestein.ts';
import { moments } from './levels.ts';
import { realFft } from './fft.ts';

/** How far one signal comes after another. */
export interface Lag {
  /** Samples by which `later` comes after `signal`; negative where it comes before. */
  readonly samples: number;
  /** Correlation coefficient at that lag, -1..1, over the samples that overlap. */
  readonly correlation: number;
}

/**
 * The lag of greatest correlation between two signals less their means, by the transform of both
 * (Bendat and Piersol, Random Data, 5.1 and 11.4). It aligns two loggers that were started by hand.
 *
 * @param most largest lag looked at, in samples
 */
export function bestLag(signal: Float64Array, later: Float64Array, most: number): Lag {
  const reach = Math.min(Math.floor(most), signal.length - 1, later.length - 1);
  if (!(reach >= 0)) throw new RangeError(`a lag is looked for within 0 or more samples, not ${most}`);
  const plan = realFft(2 * nextSmooth(Math.ceil((Math.max(signal.length, later.length) + reach + 1) / 2)));
  const [a, b] = [signal, later].map((samples) => centred(samples, plan.length));
  const spectra = [a, b].map((samples) => {
    const re = new Float64Array(plan.bins);
    const im = new Float64Array(plan.bins);
    plan.forward(samples, re, im);
    return { re, im };
  });
  const [x, y] = spectra;
  for (let k = 0; k < plan.bins; k++) {
    const re = x.re[k] * y.re[k] + x.im[k] * y.im[k];
    x.im[k] = x.re[k] * y.im[k] - x.im[k] * y.re[k];
    x.re[k] = re;
  }
  const products = new Float64Array(plan.length);
  plan.inverse(x.re, x.im, products);
  let best = 0;
  for (let lag = -reach; lag <= reach; lag++) {
    if (products[(lag + plan.length) % plan.length] > products[(best + plan.length) % plan.length]) best = lag;
  }
  return { samples: best, correlation: correlationAt(a, b, signal.length, later.length, best) };
}

function centred(samples: Float64Array, length: number): Float64Array {
  const { mean } = moments(samples);
  const padded = new Float64Array(length);
  for (let i = 0; i < samples.length; i++) padded[i] = samples[i] - mean;
  return padded;
}

function correlationAt(a: Float64Array, b: Float64Array, countA: number, countB: number, lag: number): number {
  let [product, squareA, squareB] = [0, 0, 0];
  for (let i = Math.max(0, -lag); i < countA && i + lag < countB; i++) {
    product += a[i] * b[i + lag];
    squareA += a[i] ** 2;
    squareB += b[i + lag] ** 2;
  }
  return squareA > 0 && squareB > 0 ? product / Math.sqrt(squareA * squareB) : 0;
}
