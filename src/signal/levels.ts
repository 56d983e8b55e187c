import { MeanSum, PowerSums } from './blockSums.ts';
import { percentiles } from './percentile.ts';

/** Single-number levels of a signal, in the signal's unit unless said otherwise. */
export interface Levels {
  readonly count: number;
  readonly mean: number;
  /** Root mean square of x - mean. */
  readonly rms: number;
  /** Root mean square with the mean kept. */
  readonly totalRms: number;
  /** Largest |x - mean|. */
  readonly peak: number;
  /** Largest less smallest value. */
  readonly peakToPeak: number;
  /** Peak / rms; null for a constant signal, as are kurtosis and skewness. */
  readonly crest: number | null;
  /** Pearson's kurtosis m4 / m2^2: 3 for a Gaussian signal, 1.5 for a sine. */
  readonly kurtosis: number | null;
  /** m3 / m2^1.5. */
  readonly skewness: number | null;
  /** Levels that |x - mean| stays below 99 % and 99.9 % of the time. */
  readonly p99: number;
  readonly p999: number;
}

/** Sums of the powers of x - mean, each divided by the count. */
export interface Moments {
  readonly count: number;
  readonly mean: number;
  readonly smallest: number;
  readonly largest: number;
  readonly m2: number;
  readonly m3: number;
  readonly m4: number;
}

/**
 * Levels of a signal, its mean kept out of all but `mean` and `totalRms`.
 *
 * Each sample counts once, whether or not the samples were taken evenly: what a logger takes early, late or not at all
 * by chance is a sample of the signal at random times, whose plain mean square is free of bias. A mean weighted by the
 * time between samples (trapezoidal rule) is no truer there and scatters more, since neighbours of a lost sample count
 * twice; where the stamps tell when a sample was written and not when it was taken, its weights are false. Only a
 * logger that samples faster while it shakes more needs it.
 *
 * @param samples at least one, all finite
 * @param scratch room for the percentiles, at least as long as the samples; made if not given
 * @param found moments of the samples, where they are known already
 * @throws RangeError for no samples, or for a sample that is no finite number
 */
export function levels(samples: Float64Array, scratch?: Float64Array, found = moments(samples)): Levels {
  const { count, mean } = found;
  const distance = (scratch ?? new Float64Array(count)).subarray(0, count);
  for (let i = 0; i < count; i++) distance[i] = Math.abs(samples[i] - mean);
  const [p99, p999] = percentiles(distance, [0.99, 0.999]);
  return levelsFrom(found, { p99, p999 });
}

/** Levels of the moments of a signal, and the percentiles of its distance from the mean. */
export function levelsFrom(
  { count, mean, smallest, largest, m2, m3, m4 }: Moments,
  { p99, p999 }: Pick<Levels, 'p99' | 'p999'>,
): Levels {
  const peak = Math.max(largest - mean, mean - smallest);
  const rms = Math.sqrt(m2);
  const constant = m2 === 0;
  return {
    count,
    mean,
    rms,
    totalRms: Math.sqrt(m2 + mean * mean),
    peak,
    peakToPeak: largest - smallest,
    crest: constant ? null : peak / rms,
    kurtosis: constant ? null : m4 / (m2 * m2),
    skewness: constant ? null : m3 / (m2 * rms),
    p99,
    p999,
  };
}

/**
 * Vibration dose value (int a^4 dt)^(1/4) of the signal less its mean (ISO 2631-1:1997, 6.3.2, where the signal is
 * frequency-weighted).
 *
 * @param of the signal's count and fourth moment
 * @param rate in Hz; of uneven samples their count over the duration
 * @param factor what a value is multiplied by to be in m/s^2: 9.80665 for g
 * @returns m/s^1.75
 */
export function vibrationDose(of: Pick<Moments, 'count' | 'm4'>, rate: number, factor: number): number {
  return factor * Math.sqrt(Math.sqrt((of.m4 * of.count) / rate));
}

/**
 * Central moments in two passes: the mean first, then the powers of the distance from it, with the rounding
 * that is left in the mean taken out of them (Chan, Golub and LeVeque 1983, Am. Stat. 37).
 *
 * @param samples at least one, all finite
 * @returns moments in the powers of the signal's unit, divided by the count and not by count - 1
 * @throws RangeError for no samples, or for a sample that is no finite number
 */
export function moments(samples: Float64Array): Moments {
  const count = samples.length;
  if (count === 0) throw new RangeError('levels need at least one sample');
  const look = new MeanSum();
  look.add(samples);
  const { mean: rough, smallest, largest } = look.found;
  if (!Number.isFinite(rough)) {
    const at = samples.findIndex((value) => !Number.isFinite(value));
    throw new RangeError(`sample ${at + 1} of ${count} is no finite number`);
  }
  if (smallest === largest) return { count, mean: smallest, smallest, largest, m2: 0, m3: 0, m4: 0 };
  const powers = new PowerSums(rough);
  powers.add(samples);
  return { ...momentsAbout(rough, powers.found, count), count, smallest, largest };
}

/**
 * Central moments from the sums of the powers 1 to 4 of the distance from about the mean.
 *
 * @param rough about the mean, in the signal's unit
 * @param powers the four sums
 * @param count of samples
 */
export function momentsAbout(
  rough: number,
  powers: readonly number[],
  count: number,
): Pick<Moments, 'mean' | 'm2' | 'm3' | 'm4'> {
  const [d1, d2, d3, d4] = powers.map((sum) => sum / count);
  return {
    mean: rough + d1,
    m2: d2 - d1 * d1,
    m3: d3 - 3 * d1 * d2 + 2 * d1 * d1 * d1,
    m4: d4 - 4 * d1 * d3 + 6 * d1 * d1 * d2 - 3 * (d1 * d1) ** 2,
  };
}
