import { makeSmoothPlan, radices, transformSmooth, type SmoothPlan } from './stockham.ts';
import { rootOfUnity } from './twiddle.ts';

/** A complex transform of any length, as a convolution with a chirp. */
export interface BluesteinPlan {
  readonly length: number;
  readonly padded: SmoothPlan;
  /** exp(-pi i n^2 / N). */
  readonly chirpRe: Float64Array;
  readonly chirpIm: Float64Array;
  /** Transform of the conjugate chirp, wrapped round, divided by the padded length. */
  readonly kernelRe: Float64Array;
  readonly kernelIm: Float64Array;
  readonly scratch: readonly [Float64Array, Float64Array, Float64Array, Float64Array];
}

/** The smallest length of at least `least` points whose prime factors are 2, 3 and 5. */
export function nextSmooth(least: number): number {
  let best = Infinity;
  for (let fives = 1; fives < 2 * least; fives *= 5) {
    for (let threes = fives; threes < 2 * least; threes *= 3) {
      let size = threes;
      while (size < least) size *= 2;
      if (size < best) best = size;
    }
  }
  return best;
}

/**
 * Tables for a transform of a length with a prime factor above 13, as a convolution of twice the length
 * (Bluestein 1970, IEEE Trans. Audio Electroacoust. 18).
 *
 * @param length points of the transform, at least 1
 */
export function makeBluestein(length: number): BluesteinPlan {
  const size = nextSmooth(2 * length - 1);
  const padded = makeSmoothPlan(size, radices(size)!);
  const chirpRe = new Float64Array(length);
  const chirpIm = new Float64Array(length);
  // n^2 mod 2N by steps of 2n+1, which stay small where n^2 itself would lose digits.
  for (let n = 0, square = 0; n < length; n++) {
    rootOfUnity(square, 2 * length, chirpRe, chirpIm, n);
    square = (square + 2 * n + 1) % (2 * length);
  }
  let kernelRe: Float64Array = new Float64Array(size);
  let kernelIm: Float64Array = new Float64Array(size);
  for (let n = 0; n < length; n++) {
    const at = n === 0 ? 0 : size - n;
    kernelRe[n] = kernelRe[at] = chirpRe[n] / size;
    kernelIm[n] = kernelIm[at] = -chirpIm[n] / size;
  }
  let spareRe: Float64Array = new Float64Array(size);
  let spareIm: Float64Array = new Float64Array(size);
  if (transformSmooth(padded, kernelRe, kernelIm, spareRe, spareIm)) {
    [kernelRe, spareRe] = [spareRe, kernelRe];
    [kernelIm, spareIm] = [spareIm, kernelIm];
  }
  const scratch = [spareRe, spareIm, new Float64Array(size), new Float64Array(size)] as const;
  return { length, padded, chirpRe, chirpIm, kernelRe, kernelIm, scratch };
}

/**
 * Forward transform in place, unscaled, by the plan's convolution.
 *
 * @param re real parts, overwritten by those of the transform
 * @param im imaginary parts, overwritten likewise
 * @returns always false: the result never stands in a spare pair (see `transformSmooth`)
 */
export function transformBluestein(plan: BluesteinPlan, re: Float64Array, im: Float64Array): boolean {
  const { length, padded, chirpRe, chirpIm, kernelRe, kernelIm, scratch } = plan;
  let [ar, ai, br, bi] = scratch;
  for (let n = 0; n < length; n++) {
    ar[n] = re[n] * chirpRe[n] - im[n] * chirpIm[n];
    ai[n] = re[n] * chirpIm[n] + im[n] * chirpRe[n];
  }
  ar.fill(0, length);
  ai.fill(0, length);
  if (transformSmooth(padded, ar, ai, br, bi)) [ar, ai, br, bi] = [br, bi, ar, ai];
  const size = padded.length;
  for (let k = 0; k < size; k++) {
    const real = ar[k] * kernelRe[k] - ai[k] * kernelIm[k];
    ai[k] = ar[k] * kernelIm[k] + ai[k] * kernelRe[k];
    ar[k] = real;
  }
  // Parts exchanged: the inverse transform by the forward one.
  if (transformSmooth(padded, ai, ar, bi, br)) [ar, ai] = [br, bi];
  for (let n = 0; n < length; n++) {
    re[n] = ar[n] * chirpRe[n] - ai[n] * chirpIm[n];
    im[n] = ar[n] * chirpIm[n] + ai[n] * chirpRe[n];
  }
  return false;
}
