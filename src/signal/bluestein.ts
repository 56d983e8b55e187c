import { factorsOf, makeSmoothPlan, transformSmooth, type SmoothPlan } from './stockham.ts';
import { rootOfUnity } from './twiddle.ts';

/** Transforms of any length as convolutions with a chirp: what does not depend on the signal. */
export interface Convolution {
  /** Length of a transform, N. */
  readonly points: number;
  /** The transform of the convolution's length, M; its first and its last pass are of radix 4. */
  readonly padded: SmoothPlan;
  /** exp(-pi i n^2 / N). */
  readonly chirpRe: Float64Array;
  readonly chirpIm: Float64Array;
  /** Transform of the conjugate chirp, wrapped round, divided by M. */
  readonly kernelRe: Float64Array;
  readonly kernelIm: Float64Array;
}

/**
 * The smallest length of a convolution that serves for so many points: 2N - 1 or more, 16 times powers of 2 and 3. A
 * length with a factor of 5 is seldom so much shorter that its slower pass pays.
 */
export function convolutionLength(points: number): number {
  let best = Infinity;
  for (let threes = 16; threes < 4 * points + 16; threes *= 3) {
    let size = threes;
    while (size < 2 * points - 1) size *= 2;
    if (size < best) best = size;
  }
  return best;
}

/**
 * Tables for transforms as convolutions of twice their length (Bluestein 1970, IEEE Trans. Audio Electroacoust. 18).
 *
 * @param points of a transform, N, at least 9
 */
export function makeConvolution(points: number): Convolution {
  const size = convolutionLength(points);
  const padded = makeSmoothPlan(size, [4, ...factorsOf(size / 16).radices, 4]);
  const chirpRe = new Float64Array(points);
  const chirpIm = new Float64Array(points);
  // n^2 mod 2N by steps of 2n+1, which stay small where n^2 itself would lose digits.
  for (let n = 0, square = 0; n < points; n++) {
    rootOfUnity(square, 2 * points, chirpRe, chirpIm, n);
    square = (square + 2 * n + 1) % (2 * points);
  }
  const kernelRe = new Float64Array(size);
  const kernelIm = new Float64Array(size);
  for (let n = 0; n < points; n++) {
    const at = n === 0 ? 0 : size - n;
    kernelRe[n] = kernelRe[at] = chirpRe[n] / size;
    kernelIm[n] = kernelIm[at] = -chirpIm[n] / size;
  }
  const [spareRe, spareIm] = [new Float64Array(size), new Float64Array(size)];
  if (transformSmooth(padded, kernelRe, kernelIm, spareRe, spareIm))
    return { points, padded, chirpRe, chirpIm, kernelRe: spareRe, kernelIm: spareIm };
  return { points, padded, chirpRe, chirpIm, kernelRe, kernelIm };
}

/**
 * Forward transforms in place, unscaled, of each of some columns, whose values stand `columns` apart.
 *
 * @param scratch four arrays of the convolution's length, overwritten
 * @param columns how many there are
 * @param re real parts, `columns` times the convolution's points of them, overwritten by those of the transforms
 * @param im imaginary parts, overwritten likewise
 */
export function transformColumns(
  { points, padded, chirpRe, chirpIm, kernelRe, kernelIm }: Convolution,
  scratch: readonly Float64Array[],
  columns: number,
  re: Float64Array,
  im: Float64Array,
): void {
  for (let column = 0; column < columns; column++) {
    let [ar, ai, br, bi] = scratch;
    for (let n = 0, x = column; n < points; n++, x += columns) {
      ar[n] = re[x] * chirpRe[n] - im[x] * chirpIm[n];
      ai[n] = re[x] * chirpIm[n] + im[x] * chirpRe[n];
    }
    ar.fill(0, points);
    ai.fill(0, points);
    if (transformSmooth(padded, ar, ai, br, bi)) [ar, ai, br, bi] = [br, bi, ar, ai];
    for (let k = 0; k < padded.length; k++) {
      const real = ar[k] * kernelRe[k] - ai[k] * kernelIm[k];
      ai[k] = ar[k] * kernelIm[k] + ai[k] * kernelRe[k];
      ar[k] = real;
    }
    // Parts exchanged: the inverse transform by the forward one.
    if (transformSmooth(padded, ai, ar, bi, br)) [ar, ai] = [br, bi];
    for (let n = 0, x = column; n < points; n++, x += columns) {
      re[x] = ar[n] * chirpRe[n] - ai[n] * chirpIm[n];
      im[x] = ar[n] * chirpIm[n] + ai[n] * chirpRe[n];
    }
  }
}
