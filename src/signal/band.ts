import type { Density } from './welch.ts';

/**
 * Mean square of the band [low, high]. The density is taken as constant over each bin, from half a step below its
 * centre to half a step above, and a bin on the band's edge counts by the part covered. The bins at 0 and (even
 * segments) at half the rate lie half outside the range; they keep their whole mean square, density x step, in the
 * half inside. So neighbouring bands add up, and the whole range adds up to the mean square of the spectrum.
 *
 * @param of one-sided density in unit^2/Hz
 * @param low lower edge in Hz, at least 0
 * @param high upper edge in Hz, at least `low` and at most half the rate
 * @returns unit^2
 * @throws RangeError for a band outside the spectrum
 */
export function bandMeanSquare(of: Density, low: number, high: number): number {
  let sum = 0;
  eachBin(of, low, high, (value, covered) => {
    sum += value * covered;
  });
  return sum * of.step;
}

/**
 * Root mean square of the band [low, high], both in Hz: the square root of `bandMeanSquare`.
 *
 * @returns in the signal's unit
 */
export function bandRms(of: Density, low: number, high: number): number {
  return Math.sqrt(bandMeanSquare(of, low, high));
}

/** Mean square of the whole one-sided spectrum, every bin with density x step, in unit^2. */
export function totalMeanSquare(of: Density): number {
  let sum = 0;
  const { density, step } = of;
  // Counted: the iterator of an array of thousands of bins makes an object for each.
  for (let k = 0; k < density.length; k++) sum += density[k];
  return sum * step;
}

/** Visits the bins that a band touches, with the share of the bin's mean square that falls in it. */
function eachBin(
  of: Density,
  low: number,
  high: number,
  visit: (value: number, covered: number, k: number) => void,
): void {
  const { density, step, segmentLength } = of;
  const end = segmentLength / 2;
  const from = low / step;
  // Half the rate may come out a rounding error above the last bin.
  const to = Math.abs(high / step - end) < 1e-9 * end ? end : high / step;
  if (!(low >= 0 && high >= low && to <= end)) {
    throw new RangeError(
      `a band lies between 0 and half the rate, ${of.rate / 2} Hz, with its lower edge first; not ${low}..${high} Hz`,
    );
  }
  for (let k = Math.floor(from + 0.5); k < density.length && k - 0.5 < to; k++) {
    const left = Math.max(k - 0.5, 0);
    const right = Math.min(k + 0.5, end);
    const covered = Math.min(right, to) - Math.max(left, from);
    if (covered > 0) visit(density[k], covered / (right - left), k);
  }
}
