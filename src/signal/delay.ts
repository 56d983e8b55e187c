import { realFft } from './fft.ts';
import type { Pair } from './transfer.ts';

/** By how much the output of a pair comes later than its input. */
export interface Delay {
  /** In samples, between them; negative where the output comes first. */
  readonly samples: number;
  /** Correlation coefficient at that delay, -1..1. */
  readonly correlation: number;
}

/** More samples than this add nothing to the place of the maximum; they are taken from the middle of the stretch. */
const mostSamples = 1 << 19;
/** Below this coefficient, or so few times the r.m.s. of all coefficients looked at, a maximum is one of chance. */
const leastCorrelation = 0.1;
const leastProminence = 6;

/**
 * The delay between two signals, by the largest coefficient of their cross-correlation over all delays up to a quarter
 * of the longest stretch, refined by a parabola through it and its neighbours (Bendat and Piersol, Random Data, 5.1;
 * the parabola: Jacovitti and Scarano 1993, IEEE Trans. Signal Process. 41(2)).
 *
 * @param pairs unbroken stretches, of which the longest is used
 * @returns undefined where no one delay stands out, as of unrelated signals or of pure tones
 */
export function delayBetween(pairs: readonly Pair[]): Delay | undefined {
  const longest = pairs.reduce((most, one) => (one.input.length > most.input.length ? one : most));
  const whole = longest.input.length;
  const count = Math.min(whole, mostSamples);
  const start = Math.floor((whole - count) / 2);
  const [x, y] = [longest.input, longest.output].map((samples) => meanFree(samples.subarray(start, start + count)));
  const size = Math.sqrt(energy(x) * energy(y));
  const reach = Math.floor(count / 4);
  if (!(size > 0) || reach < 2) return undefined;
  const products = crossProducts(x, y);
  const at = (lag: number): number => {
    const overlap = (count - Math.abs(lag)) / count;
    return products[lag < 0 ? products.length + lag : lag] / size / overlap;
  };
  let best = 0;
  let squares = 0;
  for (let lag = -reach; lag <= reach; lag++) {
    squares += at(lag) ** 2;
    if (Math.abs(at(lag)) > Math.abs(at(best))) best = lag;
  }
  const correlation = at(best);
  const usual = Math.sqrt(squares / (2 * reach + 1));
  if (Math.abs(correlation) < Math.max(leastCorrelation, leastProminence * usual)) return undefined;
  const [before, after] = [at(best - 1), at(best + 1)];
  const bend = before - 2 * correlation + after;
  const beside = bend === 0 ? 0 : (before - after) / (2 * bend);
  return { samples: best + Math.max(-0.5, Math.min(0.5, beside)), correlation };
}

/** Samples less their mean; @param samples at least one */
export function meanFree(samples: Float64Array): Float64Array {
  const mean = samples.reduce((sum, value) => sum + value, 0) / samples.length;
  return samples.map((value) => value - mean);
}

/** Sum of squares. @param samples in any unit */
export const energy = (samples: Float64Array): number => samples.reduce((sum, value) => sum + value * value, 0);

/** Sums of x[n] y[n + lag], those of negative lags at the end; zeros behind the signals keep both ends apart. */
export function crossProducts(x: Float64Array, y: Float64Array): Float64Array {
  let length = 2;
  while (length < 2 * x.length) length *= 2;
  const plan = realFft(length);
  const padded = new Float64Array(length);
  const [xr, xi, yr, yi] = Array.from({ length: 4 }, () => new Float64Array(plan.bins));
  padded.set(x);
  plan.forward(padded, xr, xi);
  padded.fill(0);
  padded.set(y);
  plan.forward(padded, yr, yi);
  for (let k = 0; k < plan.bins; k++) {
    const re = xr[k] * yr[k] + xi[k] * yi[k];
    yi[k] = xr[k] * yi[k] - xi[k] * yr[k];
    yr[k] = re;
  }
  plan.inverse(yr, yi, padded);
  return padded;
}

/**
 * Pairs with the output moved earlier by whole samples, or the input where the number is negative.
 *
 * @param by samples that the output comes later
 * @returns views of the samples, shorter by that many; pairs that are no longer are left out
 */
export function aligned(pairs: readonly Pair[], by: number): Pair[] {
  const size = Math.abs(by);
  return pairs
    .filter(({ input }) => input.length > size)
    .map(({ input, output }) => {
      const rest = input.length - size;
      return by >= 0
        ? { input: input.subarray(0, rest), output: output.subarray(size) }
        : { input: input.subarray(size), output: output.subarray(0, rest) };
    });
}
