import { success, type Refused, type Result } from '../../result/result.ts';
import { profileMeanSquare, type Breakpoint } from '../../signal/profile.ts';
import { convert, multiply, quantity, root, roundedSI } from '../../units/arithmetic.ts';
import { combine, dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatQuantity } from '../../units/format.ts';
import { unit as unitNamed } from '../../units/parse.ts';
import type { Quantity, Unit } from '../../units/unit.ts';
import type { ProfileValue } from '../../values/profile.ts';
import { refuse } from '../messages/spectra.ts';
import { powerOf } from '../../numbers/power.ts';
import { log2Of } from '../../numbers/logarithm.ts';

/**
 * A profile of breakpoints that are joined by straight lines on log-log paper, with its r.m.s.; or the one that was
 * given. In place of a density a slope in dB an octave may stand: that of the line from the breakpoint before, or, where
 * no density comes before, of the line to the next. Refuses both at once, breakpoints that are no pairs or of several
 * units, fewer than two of them, slopes without a density to begin from, frequencies that do not rise, and figures not
 * above 0.
 * @param profiles one and no breakpoints, or none
 * @param breakpoints frequency and density, or slope, in turn
 */
export function profileOf(profiles: readonly ProfileValue[], breakpoints: readonly Quantity[]): Result<ProfileValue> {
  if (profiles.length === 1 && breakpoints.length === 0) return success(profiles[0]);
  if (profiles.length > 0) return refuse('profile.mixed', {}, 'points');
  const densities = breakpoints.filter((one, index) => index % 2 === 1 && !isSlope(one));
  const unit = densities.at(0)?.unit;
  const given = pointsOf(breakpoints, unit);
  if (!given.ok) return given;
  if (given.value.length < 2) return refuse('profile.few', {}, 'points');
  if (unit === undefined) return refuse('profile.slopes', {}, 'points');
  const refusal = whyNoDensity(unit) ?? whyNotRising(given.value);
  return refusal ?? success(profileValue(withDensities(given.value), unit));
}

const slopeUnit = unitNamed('dB/octave');

const isSlope = ({ unit }: Quantity): boolean => sameDimension(unit.dimension, slopeUnit.dimension);

/** A breakpoint as it was given: by its density, or by the slope of the line to a neighbour in dB an octave. */
type GivenPoint = Breakpoint | { readonly frequency: number; readonly slope: number };

const hasDensity = (point: GivenPoint): point is Breakpoint => 'density' in point;

/** Slopes followed from the densities that are given: upwards from the first of them, and down from it to the first breakpoint. */
function withDensities(given: readonly GivenPoint[]): readonly Breakpoint[] {
  const first = given.findIndex(hasDensity);
  const found: Breakpoint[] = [];
  const follow = (from: Breakpoint, { frequency }: GivenPoint, slope: number): Breakpoint => ({
    frequency,
    density: from.density * powerOf(10, (slope * log2Of(frequency / from.frequency)) / 10),
  });
  for (let i = first; i < given.length; i++) {
    const point = given[i];
    found.push(hasDensity(point) ? point : follow(found[found.length - 1], point, point.slope));
  }
  for (let i = first - 1; i >= 0; i--) {
    const point = given[i];
    if (!hasDensity(point)) found.unshift(follow(found[0], point, point.slope));
  }
  return found;
}

/** Frequencies in Hz, and densities in one unit, or slopes. */
function pointsOf(breakpoints: readonly Quantity[], unit: Unit | undefined): Result<readonly GivenPoint[]> {
  const points: GivenPoint[] = [];
  for (let i = 0; i < breakpoints.length; i += 2) {
    const at = breakpoints[i];
    const density = breakpoints.at(i + 1);
    if (!sameDimension(at.unit.dimension, dimensionOf('frequency')))
      return refuse('profile.frequency', { found: formatQuantity(at) }, 'points');
    if (density === undefined) return refuse('profile.density', { at: formatQuantity(at) }, 'points');
    if (unit === undefined || isSlope(density)) {
      points.push({ frequency: roundedSI(at), slope: roundedSI(density) });
      continue;
    }
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

function whyNotRising(points: readonly GivenPoint[]): Refused | undefined {
  for (const [i, point] of points.entries()) {
    const { frequency } = point;
    if (!(frequency > 0 && (!hasDensity(point) || point.density > 0)))
      return refuse('profile.zero', { breakpoint: i + 1 }, 'points');
    const before = i === 0 ? 0 : points[i - 1].frequency;
    if (!(frequency > before)) return refuse('profile.order', { frequency, before }, 'points');
  }
  return undefined;
}

function profileValue(points: readonly Breakpoint[], unit: Unit): ProfileValue {
  const rms = root(multiply({ value: profileMeanSquare(points), unit }, quantity(1, 'Hz')));
  return { kind: 'profile', unit, points, rms: rms.value, rmsUnit: rms.unit };
}
