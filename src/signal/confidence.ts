import { windowCorrelation } from './windows.ts';

/** Quantile of the chi-square distribution: the value that a share `p` stays below at `dof` degrees of freedom. */
export type ChiSquareQuantile = (p: number, dof: number) => number;

/**
 * Effective number of independent averages behind a mean of overlapping segments:
 * K / (1 + 2 sum_{j>=1} (1 - j/K) rho_j), rho_j the squared correlation of two windows j hops apart
 * (Welch 1967, IEEE Trans. Audio Electroacoust. 15; Harris 1978, Proc. IEEE 66(1), eq. 18). Segments of different
 * unbroken stretches count as independent.
 *
 * @param shape the window
 * @param hop samples from one segment's start to the next
 * @param segments number of segments in each stretch
 * @returns at most the number of segments, need not be whole; 0 without segments
 */
export function effectiveAverages(shape: Float64Array, hop: number, segments: readonly number[]): number {
  const squared: number[] = [];
  for (let shift = hop; shift < shape.length; shift += hop) squared.push(windowCorrelation(shape, shift) ** 2);
  let total = 0;
  let variance = 0;
  for (const count of segments) {
    total += count;
    variance += count;
    for (let j = 1; j <= squared.length && j < count; j++) variance += 2 * (count - j) * squared[j - 1];
  }
  return total === 0 ? 0 : total ** 2 / variance;
}

/** What a density is multiplied by to give its lower and upper confidence limit. */
export interface ConfidenceFactors {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Factors nu / chi2_{1-a/2, nu} and nu / chi2_{a/2, nu} for a density, nu = 2 x effective averages
 * (Bendat and Piersol, Random Data, 8.5). Each bin by itself, for a stationary Gaussian record; they say
 * nothing about another run. For an amplitude take the square roots. The bins at 0 and at half the rate
 * have half as many degrees of freedom.
 *
 * @param averages effective number of averages, above 0
 * @param confidence between 0 and 1, such as 0.95
 * @param quantile of the chi-square distribution
 * @returns plain factors, the lower one below 1
 */
export function confidenceFactors(
  averages: number,
  confidence: number,
  quantile: ChiSquareQuantile,
): ConfidenceFactors {
  const dof = 2 * averages;
  const tail = (1 - confidence) / 2;
  return { lower: dof / quantile(1 - tail, dof), upper: dof / quantile(tail, dof) };
}
