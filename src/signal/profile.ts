import { bandMeanSquare } from './band.ts';
import type { Density } from './welch.ts';
import { powerOf } from '../numbers/power.ts';
import { expm1Of } from '../numbers/exponential.ts';
import { log10Of, logOf } from '../numbers/logarithm.ts';

/** A corner of a test profile: a density in g^2/Hz (or unit^2/Hz) at a frequency in Hz. */
export interface Breakpoint {
  readonly frequency: number;
  readonly density: number;
}

/**
 * Mean square of a profile that runs straight between its breakpoints on logarithmic axes: per part
 * (S2 f2 - S1 f1) / (n + 1), n = ln(S2/S1) / ln(f2/f1), or S1 f1 ln(f2/f1) where n = -1.
 * Its square root is the g r.m.s. of a random-vibration specification. A measured density is no such profile:
 * its bands are for `bandMeanSquare`.
 *
 * @param points at least two, frequencies rising, all values above 0
 * @returns unit^2: g^2 of a profile in g^2/Hz
 * @throws RangeError naming the breakpoint that breaks one of these
 */
export function profileMeanSquare(points: readonly Breakpoint[]): number {
  requireProfile(points);
  let sum = 0;
  for (let i = 0; i + 1 < points.length; i++) {
    const { frequency: f1, density: s1 } = points[i];
    const { frequency: f2, density: s2 } = points[i + 1];
    const steps = logOf(f2 / f1);
    // S f goes from S1 f1 by the factor e^u; (e^u - 1)/u is smooth through u = 0, where n = -1.
    const u = logOf(s2 / s1) + steps;
    sum += s1 * f1 * steps * (u === 0 ? 1 : expm1Of(u) / u);
  }
  return sum;
}

/** Density of the profile at a frequency, or undefined outside it. */
function profileDensity(points: readonly Breakpoint[], frequency: number): number | undefined {
  requireProfile(points);
  for (let i = 0; i + 1 < points.length; i++) {
    const { frequency: f1, density: s1 } = points[i];
    const { frequency: f2, density: s2 } = points[i + 1];
    if (frequency >= f1 && frequency <= f2) return s1 * powerOf(s2 / s1, logOf(frequency / f1) / logOf(f2 / f1));
  }
  return undefined;
}

/** A measured density against a profile. */
export interface ProfileComparison {
  /** Root mean square of each between the profile's first and last frequency. */
  readonly profileRms: number;
  readonly measuredRms: number;
  /** 10 log10(measured / profile) in dB in each bin of the density; NaN outside the profile. */
  readonly decibels: Float64Array;
}

/**
 * Compares a density with a profile, bin by bin and as a whole.
 *
 * @param of one-sided density in the profile's unit^2/Hz
 * @param points of the profile, which must lie within the density's range
 * @throws RangeError for a profile that is none, or that reaches past half the rate
 */
export function compareWithProfile(of: Density, points: readonly Breakpoint[]): ProfileComparison {
  const profileRms = Math.sqrt(profileMeanSquare(points));
  const measuredRms = Math.sqrt(bandMeanSquare(of, points[0].frequency, points[points.length - 1].frequency));
  const decibels = of.density.map((value, k) => 10 * log10Of(value / (profileDensity(points, k * of.step) ?? NaN)));
  return { profileRms, measuredRms, decibels };
}

function requireProfile(points: readonly Breakpoint[]): void {
  if (points.length < 2) throw new RangeError('a profile needs at least two breakpoints');
  points.forEach(({ frequency, density }, i) => {
    if (!(frequency > 0 && density > 0 && frequency < Infinity && density < Infinity)) {
      throw new RangeError(
        `breakpoint ${i + 1} of the profile needs a frequency and a density above 0, not ${frequency} Hz and ${density}`,
      );
    }
    if (i > 0 && !(frequency > points[i - 1].frequency)) {
      throw new RangeError(
        `the profile's frequencies must rise, but breakpoint ${i + 1} at ${frequency} Hz follows ${points[i - 1].frequency} Hz`,
      );
    }
  });
}
