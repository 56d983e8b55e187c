import { confidenceFactors, type ChiSquareQuantile } from './confidence.ts';
import type { Density } from './welch.ts';
import { log10Of, logOf } from '../numbers/logarithm.ts';

/** What seems wider than so many times the window's lobe is no pure line. */
const widestLine = 1.15;

/** Half-power width up to which a resonance passes for a pure line, in bins. @param windowWidth the window's own, in bins */
export const unseenWidthBins = (windowWidth: number): number => Math.sqrt(widestLine ** 2 - 1) * windowWidth;

/** A line or resonance that stands out of a density. */
export interface Peak {
  readonly bin: number;
  /** Frequency in Hz between the bins, by a parabola through the logarithms of the bin and its neighbours. */
  readonly frequency: number;
  /** Density of the bin in unit^2/Hz. */
  readonly density: number;
  /** Height over the higher of the dips that part it from what is higher, 10 log10 of the ratio, in dB. */
  readonly prominence: number;
  /** Frequencies in Hz where the density has fallen to half; null where a dip comes first. */
  readonly half: { readonly low: number; readonly high: number } | null;
  /**
   * Half-power width in Hz less what the window adds, sqrt(B^2 - Bw^2). Null where there are no half-power
   * points, and where the peak is no wider than a pure line would be (see `line`).
   */
  readonly width: number | null;
  /** Whether the peak can't be told from a pure line with this resolution. */
  readonly line: boolean;
  /** Whether the width spans at least five bins, so that the height and width are those of the resonance. */
  readonly resolved: boolean;
  /** Damping ratio width / (2 f) where the width is resolved and the ratio is below 0.1; else null. */
  readonly damping: number | null;
}

/** Bins that the half-power width of a resonance spans where its height and width are read without much bias. */
export const fewestBins = 5;

export interface PeakOptions {
  /** Range looked at, in Hz. */
  readonly low: number;
  readonly high: number;
  /** Confidence that none of the peaks is an accident of noise, such as 0.95. */
  readonly confidence: number;
  readonly quantile: ChiSquareQuantile;
  /** Half-power width of the window in bins, as `halfPowerWidthBins` gives it. */
  readonly windowWidth: number;
  /** How many peaks at most, the highest ones; all where it is left out. */
  readonly count?: number;
}

/**
 * The peaks of a density that noise does not explain, the highest first. A peak counts when its lower confidence
 * limit lies above the upper limit of the dips on both its sides; the limits hold for all bins of the range at
 * once (Bonferroni), so that with the stated confidence every peak found is one of the true density.
 *
 * Width and damping by the half-power points (Bendat and Piersol, Engineering Applications of Correlation and
 * Spectral Analysis, 4), with the window's own width taken out in squares, which is an approximation.
 *
 * @param of one-sided density in unit^2/Hz
 * @returns none where the range holds fewer than three bins
 */
export function findPeaks(of: Density, options: PeakOptions): Peak[] {
  const { density, step, averages } = of;
  // The mean is taken out of every segment, which leaves nothing to read in the first bin.
  const first = Math.max(1, Math.ceil(options.low / step - 1e-9));
  const last = Math.min(density.length - 1, Math.floor(options.high / step + 1e-9));
  const bins = last - first + 1;
  if (bins < 3) return [];
  const { lower, upper } = confidenceFactors(averages, 1 - (1 - options.confidence) / bins, options.quantile);
  const peaks: Peak[] = [];
  for (let k = first + 1; k < last; k++) {
    if (!(density[k] > density[k - 1] && density[k] >= density[k + 1])) continue;
    const dip = Math.max(dipBeside(density, k, -1, first), dipBeside(density, k, 1, last));
    if (density[k] * lower > dip * upper) peaks.push(peakAt(of, k, dip, first, last, options.windowWidth));
  }
  return peaks.sort((a, b) => b.density - a.density).slice(0, options.count ?? peaks.length);
}

/** What a density of exactly 0 is taken for beside a peak, so that no logarithm is infinite. */
const leastShare = 1e-30;

/** Lowest density between a peak and the next higher bin on one side, or the range's end. */
function dipBeside(density: Float64Array, peak: number, direction: 1 | -1, end: number): number {
  let lowest = density[peak];
  for (let k = peak + direction; (end - k) * direction >= 0 && density[k] <= density[peak]; k += direction) {
    if (density[k] < lowest) lowest = density[k];
  }
  return lowest;
}

function peakAt(of: Density, k: number, dip: number, first: number, last: number, windowWidth: number): Peak {
  const { density, step } = of;
  const frequency = (k + vertex(density, k)) * step;
  const low = halfPoint(density, k, -1, first);
  const high = halfPoint(density, k, 1, last);
  const half = low === undefined || high === undefined ? null : { low: low * step, high: high * step };
  const seen = half === null ? undefined : (half.high - half.low) / step;
  // Noise beside a line lets it seem a little wider than the window's own lobe.
  const line = seen !== undefined && seen < widestLine * windowWidth;
  const width = seen === undefined || line ? null : Math.sqrt(seen ** 2 - windowWidth ** 2) * step;
  const resolved = width !== null && width >= fewestBins * step;
  const ratio = width === null ? null : width / (2 * frequency);
  const damping = resolved && ratio !== null && ratio < 0.1 ? ratio : null;
  return {
    bin: k,
    frequency,
    density: density[k],
    prominence: -10 * log10Of(Math.max(dip / density[k], leastShare)),
    half,
    width,
    line,
    resolved,
    damping,
  };
}

/** Place of the highest point in bins from k, -0.5..0.5. */
function vertex(density: Float64Array, k: number): number {
  const [a, b, c] = [density[k - 1], density[k], density[k + 1]].map(logOf);
  const bend = a - 2 * b + c;
  return Number.isFinite(bend) && bend < 0 ? Math.max(-0.5, Math.min(0.5, (a - c) / (2 * bend))) : 0;
}

/** Place in bins where the density has fallen to half, or undefined where it rises above the peak or the range ends first. */
function halfPoint(density: Float64Array, peak: number, direction: 1 | -1, end: number): number | undefined {
  const target = density[peak] / 2;
  for (let k = peak + direction; (end - k) * direction >= 0; k += direction) {
    const before = density[k - direction];
    // On a logarithmic scale a window's main lobe is nearly a parabola, along which a chord is nearly right.
    const here = Math.max(density[k], density[peak] * leastShare);
    if (density[k] <= target) return k - (direction * logOf(target / here)) / logOf(before / here);
    if (density[k] > density[peak]) return undefined;
  }
  return undefined;
}
