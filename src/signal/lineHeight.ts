import { windowResponse } from './windows.ts';

/** Where a pure line lies beside its highest bin, and how much lower than the line that bin reads. */
export interface LineBetweenBins {
  /** Of the line from the bin, in bins, -0.5..0.5. */
  readonly offset: number;
  /** What the bin's amplitude is multiplied by to be that of the line, at least 1. */
  readonly gain: number;
}

/** The mirror image of a line at a negative frequency leaks into its bin; above this share of its amplitude no correction holds. */
const mostLeakage = 0.005;

/**
 * A pure line between two bins, from the ratio of its highest bin to the higher of its neighbours, which for a given
 * window only the offset decides (Rife and Vincent 1970, Bell System Technical Journal 49(2), for the rectangular
 * window; Grandke 1983, IEEE Trans. Instrum. Meas. 32(2), for cosine windows). Solved by bisection on the window's own
 * response, so that it holds for any window.
 *
 * @param density one-sided powers of bins 0 to half the rate
 * @param bin the highest of the line, with a neighbour on either side
 * @param shape of the window that the density was taken with; some hundred samples of it are enough
 * @param segmentLength samples of a segment, which say where the mirror images are
 * @returns undefined where the mirror image below 0 or past half the rate leaks into the bin
 */
export function lineBetweenBins(
  density: Float64Array,
  bin: number,
  shape: Float64Array,
  segmentLength: number,
): LineBetweenBins | undefined {
  if (leakage(shape, Math.min(2 * bin, segmentLength - 2 * bin)) > mostLeakage) return undefined;
  const side = density[bin + 1] > density[bin - 1] ? 1 : -1;
  const seen = density[bin + side] / density[bin];
  const ratio = (offset: number): number => (windowResponse(shape, 1 - offset) / windowResponse(shape, offset)) ** 2;
  let low = 0;
  let high = 0.5;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (ratio(middle) < seen) low = middle;
    else high = middle;
  }
  // A line on its bin's centre is there exactly, not a rounding beside it.
  const offset = high < 1e-9 ? 0 : (low + high) / 2;
  return { offset: side * offset, gain: 1 / windowResponse(shape, offset) };
}

/**
 * The part of a line's amplitude that its bin loses in the worst case, half-way between two bins.
 *
 * @param shape of the window
 */
export const worstLoss = (shape: Float64Array): number => 1 - windowResponse(shape, 0.5);

/** The window's response so many bins away, as the highest of its lobe there. */
const leakage = (shape: Float64Array, bins: number): number =>
  Math.max(...[-0.5, 0, 0.5].map((beside) => windowResponse(shape, bins + beside)));
