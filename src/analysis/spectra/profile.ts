import { success, type Refused, type Result } from '../../result/result.ts';
import { profileMeanSquare, type Breakpoint } from '../../signal/profile.ts';
import { convert, multiply, quantity, root, roundedSI } from '../../units/arithmetic.ts';
import { combine, dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatQuantity } from '../../units/format.ts';
import type { Quantity, Unit } from '../../units/unit.ts';
import type { ProfileValue } from '../../values/profile.ts';
import { refuse } from '../messages/spectra.ts';

/**
 * A profile of breakpoints that are joined by straight lines on log-log paper, with its r.m.s.; or the one that was
 * given. Refuses both at once, breakpoints that are no pairs or of several units, fewer than two of them, frequencies
 * that do not rise, and figures not above 0.
 * @param profiles one and no breakpoints, or none
 * @param breakpoints frequency and density in turn
 */
export function profileOf(profiles: readonly ProfileValue[], breakpoints: readonly Quantity[]): Result<ProfileValue> {
  if (profiles.length === 1 && breakpoints.length === 0) return success(profiles[0]);
  if (profiles.length > 0) return refuse('profile.mixed', {}, 'points');
  const unit = breakpoints.at(1)?.unit;
  const points = pointsOf(breakpoints, unit);
  if (!points.ok) return points;
  if (points.value.length < 2 || unit === undefined) return refuse('profile.few', {}, 'points');
  const refusal = whyNoDensity(unit) ?? whyNotRising(points.value);
  return refusal ?? success(profileValue(points.value, unit));
}

/** Frequencies in Hz, and densities in one unit. */
function pointsOf(breakpoints: readonly Quantity[], unit: Unit | undefined): Result<readonly Breakpoint[]> {
  const points: Breakpoint[] = [];
  for (let i = 0; i < breakpoints.length; i += 2) {
    const at = breakpoints[i];
    const density = breakpoints.at(i + 1);
    if (!sameDimension(at.unit.dimension, dimensionOf('frequency')))
      return refuse('profile.frequency', { found: formatQuantity(at) }, 'points');
    if (density === undefined || unit === undefined)
      return refuse('profile.density', { at: formatQuantity(at) }, 'points');
    const sized = convert(density, unit);
    if (sized === undefined) {
      const facts = { why: 'mixed', density: formatQuantity(density), unit: unit.symbol } as const;
      return refuse('profile.unit', facts, 'points');
    }
    points.push({ frequency: roundedSI(at), density: sized.value });
  }
  return success(points);
}

/** A density times a frequency is a square. */
function whyNoDensity({ dimension, symbol }: Unit): Refused | undefined {
  const square = combine(dimension, dimensionOf('frequency'), 1);
  if (Object.values(square).every((exponent) => exponent % 2 === 0)) return undefined;
  return refuse('profile.unit', { why: 'density', unit: symbol }, 'points');
}

function whyNotRising(points: readonly Breakpoint[]): Refused | undefined {
  for (const [i, { frequency, density }] of points.entries()) {
    if (!(frequency > 0 && density > 0)) return refuse('profile.zero', { breakpoint: i + 1 }, 'points');
    const before = i === 0 ? 0 : points[i - 1].frequency;
    if (!(frequency > before)) return refuse('profile.order', { frequency, before }, 'points');
  }
  return undefined;
}

function profileValue(points: readonly Breakpoint[], unit: Unit): ProfileValue {
  const rms = root(multiply({ value: profileMeanSquare(points), unit }, quantity(1, 'Hz')));
  return { kind: 'profile', unit, points, rms: rms.value, rmsUnit: rms.unit };
}
