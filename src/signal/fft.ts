import { planOf, transformBy } from './anyLength.ts';
import { Kept } from './kept.ts';
import { rootOfUnity } from './twiddle.ts';

/** A discrete Fourier transform of one length, with its tables and scratch; take it from `fft` and share it. */
export interface Fft {
  readonly length: number;
  /** X[k] = sum x[n] exp(-2 pi i k n / N), in place, unscaled. */
  forward(re: Float64Array, im: Float64Array): void;
  /** x[n] = (1/N) sum X[k] exp(+2 pi i k n / N), in place. */
  inverse(re: Float64Array, im: Float64Array): void;
  /**
   * The forward transform without a copy at the end: true says that the result stands in the spare pair.
   * All four arrays hold `length` numbers and are overwritten.
   */
  forwardBetween(re: Float64Array, im: Float64Array, spareRe: Float64Array, spareIm: Float64Array): boolean;
}

/** The transform of real samples of one length into floor(N/2)+1 one-sided bins, and back. */
export interface RealFft {
  readonly length: number;
  /** Number of bins, floor(N/2)+1. */
  readonly bins: number;
  /** Bins 0..floor(N/2) of the forward transform of `samples`, unscaled, into `re` and `im`. */
  forward(samples: ArrayLike<number>, re: Float64Array, im: Float64Array): void;
  /** The real samples whose one-sided bins these are, scaled by 1/N; `re` and `im` are left as they were. */
  inverse(re: Float64Array, im: Float64Array, samples: Float64Array): void;
}

/** Tables are kept for the lengths used last, but only while they stay within this many points in all. */
const keptPoints = 1 << 20;

const complexPlans = new Kept(makeFft, ({ length }) => length, keptPoints);
const realPlans = new Kept(makeRealFft, ({ length }) => length, keptPoints);

/**
 * The complex transform of any length; tables of recent lengths are kept.
 *
 * @param length points, a whole number from 1
 * @throws RangeError for any other length
 */
export function fft(length: number): Fft {
  return complexPlans.of(checked(length));
}

/**
 * The transform of real samples of any length into floor(length / 2) + 1 bins; tables of recent lengths are kept.
 *
 * @param length samples, a whole number from 1
 * @throws RangeError for any other length
 */
export function realFft(length: number): RealFft {
  return realPlans.of(checked(length));
}

function checked(length: number): number {
  if (!Number.isInteger(length) || length < 1)
    throw new RangeError(`a transform needs a whole length of at least 1, not ${length}`);
  return length;
}

function makeFft(length: number): Fft {
  const forwardBetween = transformBy(planOf(length));
  let spareRe: Float64Array | undefined;
  let spareIm: Float64Array | undefined;
  const forward = (re: Float64Array, im: Float64Array): void => {
    spareRe ??= new Float64Array(length);
    spareIm ??= new Float64Array(length);
    if (forwardBetween(re, im, spareRe, spareIm)) {
      re.set(spareRe);
      im.set(spareIm);
    }
  };
  const inverse = (re: Float64Array, im: Float64Array): void => {
    // Exchanging the parts conjugates before and after: the inverse is the forward transform seen from the other side.
    forward(im, re);
    for (let i = 0; i < length; i++) {
      re[i] /= length;
      im[i] /= length;
    }
  };
  return { length, forward, inverse, forwardBetween };
}

function makeRealFft(length: number): RealFft {
  return length % 2 === 0 ? makeEvenRealFft(length) : makeOddRealFft(length);
}

/** An even record is taken as half as many complex numbers, and the two interleaved spectra are then parted. */
function makeEvenRealFft(length: number): RealFft {
  const half = length / 2;
  const plan = makeFft(half);
  const zr = new Float64Array(half);
  const zi = new Float64Array(half);
  const wr = new Float64Array(half + 1);
  const wi = new Float64Array(half + 1);
  for (let k = 0; k <= half; k++) rootOfUnity(k, length, wr, wi, k);
  return {
    length,
    bins: half + 1,
    forward(samples, re, im) {
      for (let i = 0, j = 0; i < half; i++, j += 2) {
        zr[i] = samples[j];
        zi[i] = samples[j + 1];
      }
      plan.forward(zr, zi);
      for (let k = 0; k <= half; k++) {
        const a = k === half ? 0 : k;
        const b = k === 0 ? 0 : half - k;
        const evenR = 0.5 * (zr[a] + zr[b]);
        const evenI = 0.5 * (zi[a] - zi[b]);
        const oddR = 0.5 * (zi[a] + zi[b]);
        const oddI = 0.5 * (zr[b] - zr[a]);
        re[k] = evenR + (oddR * wr[k] - oddI * wi[k]);
        im[k] = evenI + (oddR * wi[k] + oddI * wr[k]);
      }
    },
    inverse(re, im, samples) {
      for (let k = 0; k < half; k++) {
        const b = half - k;
        // A real record has no imaginary part at 0 and at half the rate; what stands there is left out.
        const aIm = k === 0 ? 0 : im[k];
        const bIm = k === 0 ? 0 : im[b];
        const evenR = 0.5 * (re[k] + re[b]);
        const evenI = 0.5 * (aIm - bIm);
        const difR = 0.5 * (re[k] - re[b]);
        const difI = 0.5 * (aIm + bIm);
        const oddR = difR * wr[k] + difI * wi[k];
        const oddI = difI * wr[k] - difR * wi[k];
        zr[k] = evenR - oddI;
        zi[k] = evenI + oddR;
      }
      plan.inverse(zr, zi);
      for (let i = 0, j = 0; i < half; i++, j += 2) {
        samples[j] = zr[i];
        samples[j + 1] = zi[i];
      }
    },
  };
}

function makeOddRealFft(length: number): RealFft {
  const plan = makeFft(length);
  const bins = (length + 1) / 2;
  const zr = new Float64Array(length);
  const zi = new Float64Array(length);
  return {
    length,
    bins,
    forward(samples, re, im) {
      for (let i = 0; i < length; i++) zr[i] = samples[i];
      zi.fill(0);
      plan.forward(zr, zi);
      re.set(zr.subarray(0, bins));
      im.set(zi.subarray(0, bins));
    },
    inverse(re, im, samples) {
      zr[0] = re[0];
      zi[0] = 0;
      for (let k = 1; k < bins; k++) {
        zr[k] = re[k];
        zi[k] = im[k];
        zr[length - k] = re[k];
        zi[length - k] = -im[k];
      }
      plan.inverse(zr, zi);
      samples.set(zr);
    },
  };
}
