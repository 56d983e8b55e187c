import { Cancelled, type CancelCheck } from './cancel.ts';
import { moments } from './levels.ts';
import { sinOf } from '../numbers/trigonometry.ts';

/** A ratio of whole numbers. */
export interface Ratio {
  readonly up: number;
  readonly down: number;
}

/**
 * A ratio of whole numbers near a ratio of rates, by its continued fraction (Hardy and Wright, An Introduction to the
 * Theory of Numbers, 10): the first within the tolerance, or where that takes numbers above 10 000 the nearest that
 * does not. The resampled signal's rate is rate x up / down to the last digit, and is to be stated so.
 *
 * @param ratio new rate / old rate, above 0
 * @param tolerance relative
 * @throws RangeError for a ratio that is not above 0, or above 10 000 either way
 */
export function rationalRatio(ratio: number, tolerance = 1e-6): Ratio {
  if (!(ratio > 0 && ratio < Infinity)) throw new RangeError(`a ratio of rates lies above 0, not at ${ratio}`);
  let [up, down, upBefore, downBefore] = [1, 0, 0, 1];
  let rest = ratio;
  for (;;) {
    const whole = Math.floor(rest);
    const [upNext, downNext] = [whole * up + upBefore, whole * down + downBefore];
    // Beyond the bound the convergent before it is kept, unless there is none yet.
    if (down > 0 && up > 0 && Math.max(upNext, downNext) > largestTerm) break;
    [up, down, upBefore, downBefore] = [upNext, downNext, up, down];
    if ((up > 0 && Math.abs(up / down / ratio - 1) <= tolerance) || rest === whole) break;
    rest = 1 / (rest - whole);
  }
  if (Math.max(up, down) > largestTerm)
    throw new RangeError(`the rate would change by a factor of ${ratio}, more than ${largestTerm}`);
  return { up, down };
}

const largestTerm = 10_000;

/**
 * Resamples one unbroken stretch by up / down through an anti-aliasing polyphase filter: a sinc with a Kaiser window
 * (beta 5), cut off at half the lower of the two rates, 20 x max(up, down) + 1 coefficients, no shift. Beyond its ends
 * the stretch is continued by its mean. It equals scipy.signal.resample_poly with padtype 'mean'. The first sample
 * keeps its time.
 *
 * @param samples one unbroken stretch
 * @returns ceil(samples x up / down) samples at rate x up / down, in the signal's unit; the samples themselves where
 * the ratio is 1
 * @throws RangeError for a ratio that is not one of whole numbers above 0; Cancelled when `cancelled` says so
 */
export function resampled(samples: Float64Array, { up, down }: Ratio, cancelled?: CancelCheck): Float64Array {
  const divisor = greatestCommonDivisor(up, down);
  const u = up / divisor;
  const d = down / divisor;
  if (!(Number.isInteger(u) && Number.isInteger(d) && u > 0 && d > 0))
    throw new RangeError(`a ratio needs whole numbers from 1, not ${up}/${down}`);
  if (samples.length === 0 || (u === 1 && d === 1)) return samples;
  const level = moments(samples).mean;
  const half = 10 * Math.max(u, d);
  const phases = phaseTable(antiAlias(half, Math.max(u, d), u), u);
  const taps = phases.length / u;
  const count = samples.length;
  const result = new Float64Array(Math.ceil((count * u) / d));
  for (let j = 0; j < result.length; j++) {
    if (j % 65536 === 0 && cancelled?.()) throw new Cancelled();
    const place = j * d + half;
    const last = Math.floor(place / u);
    const base = (place - last * u) * taps;
    const first = last - taps + 1;
    const from = Math.max(first, 0);
    const to = Math.min(last, count - 1);
    let sum = 0;
    for (let i = from, c = base + from - first; i <= to; i++, c++) sum += (samples[i] - level) * phases[c];
    result[j] = sum + level;
  }
  return result;
}

/** Windowed sinc of 2 half + 1 coefficients whose sum is `gain`. */
function antiAlias(half: number, slower: number, gain: number): Float64Array {
  const shape = new Float64Array(2 * half + 1);
  let sum = 0;
  for (let n = 0; n <= 2 * half; n++) {
    const m = n - half;
    const angle = (Math.PI * m) / slower;
    const kaiser = besselI0(5 * Math.sqrt(1 - (m / half) ** 2)) / besselI0(5);
    shape[n] = (m === 0 ? 1 / slower : sinOf(angle) / (Math.PI * m)) * kaiser;
    sum += shape[n];
  }
  return shape.map((value) => (value / sum) * gain);
}

/** The coefficients of each phase one after another, last first, as a rising run through the samples meets them. */
function phaseTable(shape: Float64Array, up: number): Float64Array {
  const taps = Math.ceil(shape.length / up);
  const table = new Float64Array(taps * up);
  for (let n = 0; n < shape.length; n++) table[(n % up) * taps + taps - 1 - Math.floor(n / up)] = shape[n];
  return table;
}

/** Modified Bessel function of order 0 by its power series, whose terms are all positive (DLMF 10.25.2). */
function besselI0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
