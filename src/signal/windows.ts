import { Kept } from './kept.ts';
import { cosOf, sinOf } from '../numbers/trigonometry.ts';

/** The windows offered, the default first. */
export const windowNames = ['hann', 'hamming', 'blackman', 'blackman-harris', 'flattop', 'rectangular'] as const;

export type WindowName = (typeof windowNames)[number];

/**
 * Cosine coefficients a_k of w[n] = sum (-1)^k a_k cos(2 pi k n / L).
 * Harris 1978, Proc. IEEE 66(1), table 1 (hann to blackman-harris, 4 terms); flattop as in D'Antona and Ferrero
 * 2006, Digital Signal Processing for Measurement Systems, which general numerical libraries call by that name.
 */
const coefficients: Readonly<Record<WindowName, readonly number[]>> = {
  hann: [0.5, 0.5],
  hamming: [0.54, 0.46],
  blackman: [0.42, 0.5, 0.08],
  'blackman-harris': [0.35875, 0.48829, 0.14128, 0.01168],
  flattop: [0.21557895, 0.41663158, 0.277263158, 0.083578947, 0.006947368],
  rectangular: [1],
};

/** Bins from a line to the first zero of a window's response: half the width of its main lobe. */
export const mainLobeBins = (name: WindowName): number => coefficients[name].length;

/**
 * A periodic window: samples of a shape whose period is `length`, as spectra need it (the symmetric form, whose
 * period is length - 1, is for filter design).
 *
 * @param name of the window
 * @param length samples, a whole number from 1
 * @returns plain factors, the largest 1 or nearly
 * @throws RangeError for any other length
 */
export function windowShape(name: WindowName, length: number): Float64Array {
  if (!Number.isInteger(length) || length < 1)
    throw new RangeError(`a window needs a whole length of at least 1, not ${length}`);
  return cosineSum(coefficients[name], length);
}

/** Bytes of the windows of one name that are kept. */
const keptBytes = 1 << 21;

const kept = new Map<WindowName, Kept<Float64Array>>(
  windowNames.map((name) => [
    name,
    new Kept(
      (length) => windowShape(name, length),
      ({ byteLength }) => byteLength,
      keptBytes,
    ),
  ]),
);

/**
 * The same window, one array for all who ask for it, not to be written to: signals of a study go through one window by the hundred,
 * and it takes a fifth as long as the density of a minute.
 *
 * @param name of the window
 * @param length samples, a whole number from 1
 * @returns plain factors, the largest 1 or nearly
 * @throws RangeError for any other length
 */
export function sharedWindow(name: WindowName, length: number): Float64Array {
  return kept.get(name)!.of(length);
}

/**
 * The periodic window w[n] = sum (-1)^k a_k cos(2 pi k n / L) (Harris 1978, Proc. IEEE 66(1)).
 *
 * @param terms a_k, all positive
 * @param length L in samples; the window of one sample is 1
 */
export function cosineSum(terms: readonly number[], length: number): Float64Array {
  const shape = new Float64Array(length);
  for (let n = 0; n < length; n++) {
    let sum = 0;
    for (let k = 0; k < terms.length; k++) {
      const term = terms[k] * cosOf((2 * Math.PI * ((k * n) % length)) / length);
      sum += k % 2 === 0 ? term : -term;
    }
    shape[n] = sum;
  }
  // A single sample has no shape: the periodic formula would give a Hann window of nothing.
  if (length === 1) shape[0] = 1;
  return shape;
}

/**
 * Correlation of two windows, sum w[n] w[n + hop] / sum w^2 (Harris 1978, Proc. IEEE 66(1), eq. 17).
 *
 * @param shape the window
 * @param hop samples that they lie apart
 */
export function windowCorrelation(shape: Float64Array, hop: number): number {
  let product = 0;
  for (let n = 0; n + hop < shape.length; n++) product += shape[n] * shape[n + hop];
  return product / sumOfSquares(shape);
}

/**
 * Response of a window to a line beside a bin's centre, as a part of its response at the centre.
 *
 * @param shape the window
 * @param offset of the line in bins
 * @returns a ratio of amplitudes
 */
export function windowResponse(shape: Float64Array, offset: number): number {
  let re = 0;
  let im = 0;
  for (let n = 0; n < shape.length; n++) {
    const angle = (2 * Math.PI * offset * n) / shape.length;
    re += shape[n] * cosOf(angle);
    im -= shape[n] * sinOf(angle);
  }
  return Math.hypot(re, im) / Math.abs(sumOf(shape));
}

/**
 * Width over which a line's power reads at least half its height, by bisection on `windowResponse`.
 *
 * @param shape the window
 * @returns in bins, both sides together
 */
export function halfPowerWidthBins(shape: Float64Array): number {
  let inside = 0;
  let outside = 4;
  for (let i = 0; i < 60; i++) {
    const middle = (inside + outside) / 2;
    if (windowResponse(shape, middle) ** 2 >= 0.5) inside = middle;
    else outside = middle;
  }
  return inside + outside;
}

/** Sum of the values. */
export function sumOf(values: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < values.length; n++) sum += values[n];
  return sum;
}

/** Sum of the squares of the values. */
export function sumOfSquares(values: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < values.length; n++) sum += values[n] * values[n];
  return sum;
}
