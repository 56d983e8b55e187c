import { Cancelled } from './cancel.ts';
import { effectiveAverages } from './confidence.ts';
import { fft } from './fft.ts';
import { scratchArrays } from './scratch.ts';
import { hopOf, segmentCount, type WelchOptions } from './welch.ts';
import { windowed } from './windowed.ts';
import { atan2Of } from '../numbers/arcs.ts';

/** Input and output, recorded at the same moments; of the same length, without a gap. */
export interface Pair {
  readonly input: Float64Array;
  readonly output: Float64Array;
}

/** Frequency response between two simultaneous signals. Bin k is at k x step. */
export interface Transfer {
  readonly step: number;
  readonly segments: number;
  /** Effective number of independent averages. */
  readonly averages: number;
  /** |H1| = |Gxy| / Gxx, read low where the input is noisy. */
  readonly h1: Float64Array;
  /** |H2| = Gyy / |Gyx|, read high where the output is noisy; infinite where nothing is common. */
  readonly h2: Float64Array;
  /** Phase of both in radians, -pi..pi; negative where the output comes later. */
  readonly phase: Float64Array;
  /** |Gxy|^2 / (Gxx Gyy), 0..1. */
  readonly coherence: Float64Array;
  /** Random error of |H1| as a share of it, which is that of the phase in radians as well. */
  readonly error: Float64Array;
}

/**
 * H1, H2, coherence and their random error by Welch's averages, with Gxy = mean conj(X) Y
 * (Bendat and Piersol, Random Data, 6.2 and 9.2). The error is sqrt(1 - g2) / (sqrt(g2) sqrt(2 n)), n the effective averages.
 *
 * @param pairs unbroken stretches; no segment reaches across two of them
 * @param options as of `welchDensity`, but for `vectors`
 * @returns magnitudes in the output's unit per the input's; 0, and H2 infinite, where one of both holds nothing but
 * rounding beside the other
 * @throws RangeError for fewer than two segments, of which any two signals would seem coherent, and for an output of
 * another length than its input; Cancelled when `cancelled` says so
 */
export function transfer(pairs: readonly Pair[], options: WelchOptions): Transfer {
  const { shape, rate, overlap = 0.5 } = options;
  const hop = hopOf(shape.length, overlap);
  const counts = pairs.map(({ input, output }) => {
    if (input.length !== output.length)
      throw new RangeError(`input and output differ in length, ${input.length} and ${output.length} samples`);
    return segmentCount(input.length, shape.length, hop);
  });
  const segments = counts.reduce((sum, count) => sum + count, 0);
  if (segments < 2)
    throw new RangeError(
      `a frequency response needs at least two segments of ${shape.length} samples, not ${segments}`,
    );
  const sums = crossSums(pairs, counts, hop, options);
  const averages = effectiveAverages(shape, hop, counts);
  const bins = sums.xx.length;
  const found = Array.from({ length: 5 }, () => new Float64Array(bins));
  const [h1, h2, phase, coherence, error] = found;
  const [leastInput, leastOutput] = [leakageOf(sums.yy), leakageOf(sums.xx)];
  for (let k = 0; k < bins; k++) {
    const xx = sums.xx[k] > leastInput ? sums.xx[k] : 0;
    const yy = sums.yy[k] > leastOutput ? sums.yy[k] : 0;
    const both = xx * yy;
    const size = both > 0 ? Math.hypot(sums.re[k], sums.im[k]) : 0;
    h1[k] = xx > 0 ? size / xx : 0;
    h2[k] = yy > 0 ? yy / size : 0;
    phase[k] = size > 0 ? atan2Of(sums.im[k], sums.re[k]) : 0;
    coherence[k] = both > 0 ? Math.min(1, size ** 2 / both) : 0;
    error[k] = transferError(coherence[k], averages);
  }
  return { step: rate / shape.length, segments, averages, h1, h2, phase, coherence, error };
}

/** Rounding of a transform, as a share of its largest value, with some room for long segments. */
const rounding = 1e-14;

/** What one transform of both leaves of a signal's power in the other by rounding: there a dead channel has nothing. */
const leakageOf = (powers: Float64Array): number =>
  rounding ** 2 * powers.reduce((most, power) => Math.max(most, power), 0);

/** Random error of |H| as a share of it, and of its phase in radians. */
function transferError(coherence: number, averages: number): number {
  return Math.sqrt((1 - coherence) / (coherence * 2 * averages));
}

interface CrossSums {
  readonly xx: Float64Array;
  readonly yy: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Input as real and output as imaginary part of one transform, which is then parted by its symmetry. */
function crossSums(
  pairs: readonly Pair[],
  counts: readonly number[],
  hop: number,
  { shape, cancelled }: WelchOptions,
): CrossSums {
  const length = shape.length;
  const plan = fft(length);
  const [re, im, spareRe, spareIm] = scratchArrays(4, length);
  const bins = Math.floor(length / 2) + 1;
  const sums = {
    xx: new Float64Array(bins),
    yy: new Float64Array(bins),
    re: new Float64Array(bins),
    im: new Float64Array(bins),
  };
  pairs.forEach(({ input, output }, p) => {
    for (let segment = 0; segment < counts[p]; segment++) {
      if (segment % 128 === 0 && cancelled?.()) throw new Cancelled();
      windowed(input, segment * hop, shape, re);
      windowed(output, segment * hop, shape, im);
      if (plan.forwardBetween(re, im, spareRe, spareIm)) addCross(spareRe, spareIm, sums);
      else addCross(re, im, sums);
    }
  });
  return sums;
}

function addCross(re: Float64Array, im: Float64Array, { xx, yy, re: crossRe, im: crossIm }: CrossSums): void {
  const length = re.length;
  for (let k = 0; k < xx.length; k++) {
    const l = k === 0 ? 0 : length - k;
    const xr = 0.5 * (re[k] + re[l]);
    const xi = 0.5 * (im[k] - im[l]);
    const yr = 0.5 * (im[k] + im[l]);
    const yi = 0.5 * (re[l] - re[k]);
    xx[k] += xr * xr + xi * xi;
    yy[k] += yr * yr + yi * yi;
    crossRe[k] += xr * yr + xi * yi;
    crossIm[k] += xr * yi - xi * yr;
  }
}
