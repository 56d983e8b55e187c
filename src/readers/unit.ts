import { success, type Result } from '../result/result.ts';
import { finding, refuse } from './messages.ts';
import type { UnsettledUnit } from './messages/channels.ts';
import type { Finding, RecordedChannel, ReadOptions } from './recording.ts';
import { settings } from './settings.ts';
import { accelerationSize, accelerationUnits, unitSymbol } from './units.ts';
import { log2Of } from '../numbers/logarithm.ts';

/** What settles a recording's unit. */
export interface UnitReading {
  readonly unit: string | undefined;
  readonly from: RecordedChannel['unitFrom'];
  /** Why nothing settles it and what does, or what a careful reader would mention. */
  readonly remark?: Finding;
}

/** What a file says of its unit: one of acceleration, or that its numbers are counts or volts. */
export interface StatedUnit {
  readonly header: string | undefined;
  readonly raw: string | undefined;
  /** A unit that the header states and that is not known here. */
  readonly unknown: string | undefined;
}

/** Unit in which a mean vector of this length would be gravity, or undefined. */
export function unitOfGravity(length: number): string | undefined {
  for (const [unit, size] of Object.entries(accelerationUnits)) {
    if (isGravity(length * size)) return unit;
  }
  return undefined;
}

/** Whether a length in m/s² is that of standard gravity, within what a sensor's scale and its tilt allow. */
function isGravity(length: number): boolean {
  const share = length / accelerationUnits.g;
  return share >= settings.gravity.low && share <= settings.gravity.high;
}

/** The power of two from 256 to 16384 that a length is within 5 % of, as counts of a sensor at 1 g are. */
function countsOfGravity(length: number): number | undefined {
  const power = Math.round(log2Of(length));
  const counts = 1 << power;
  return power >= 8 && power <= 14 && Math.abs(length / counts - 1) < 0.05 ? counts : undefined;
}

/**
 * The unit of acceleration from the option, else the header, else the length of the mean vector (of three axes).
 * Refuses a file in which they contradict each other: an option overrules a header only if the mean vector agrees with
 * it, or if `scale` says that the numbers are counts.
 * @param length of the mean vector, in the unit that is sought
 * @param isInteger whether all readings are whole numbers
 */
export function settleUnit(
  path: string,
  { header, raw, unknown }: StatedUnit,
  length: number | undefined,
  isInteger: boolean,
  options: ReadOptions,
): Result<UnitReading> {
  const seen = length === undefined ? undefined : unitOfGravity(length);
  const option = options.unit === undefined ? undefined : (unitSymbol(options.unit) ?? options.unit);
  const gravity = seen === undefined || length === undefined ? undefined : { unit: seen, length };
  if (option !== undefined) return byOption(path, option, header, gravity, options.scale !== undefined);
  if (header !== undefined) return byHeader(path, header, gravity);
  return success(byGravity({ raw, unknown }, gravity, length, isInteger));
}

/** The unit where neither the option nor the header tells it. */
function byGravity(
  { raw, unknown }: Pick<StatedUnit, 'raw' | 'unknown'>,
  gravity: Gravity | undefined,
  length: number | undefined,
  isInteger: boolean,
): UnitReading {
  const counts = isInteger && length !== undefined ? countsOfGravity(length) : undefined;
  if (raw !== undefined && counts === undefined) return unsettled({ kind: 'raw', raw });
  if (length === undefined) return unsettled({ kind: 'no axes', unknown });
  if (counts !== undefined) return unsettled({ kind: 'counts', length, counts, unit: gravity?.unit });
  if (gravity !== undefined) return { unit: gravity.unit, from: 'mean vector' };
  return unsettled({ kind: 'no gravity', unknown, length, isSmall: length * accelerationUnits.g < 1 });
}

/** The mean vector where it is gravity in some unit: its length, and the unit. */
interface Gravity {
  readonly unit: string;
  readonly length: number;
}

/** A unit that nothing settles. */
export const unsettled = (why: UnsettledUnit): UnitReading => ({
  unit: undefined,
  from: 'none',
  remark: finding('unit-unsettled', 'warning', why),
});

function byOption(
  path: string,
  option: string,
  header: string | undefined,
  gravity: Gravity | undefined,
  scaled: boolean,
): Result<UnitReading> {
  const settled: UnitReading = { unit: option, from: 'option' };
  if (scaled) return success(settled);
  if (header !== undefined && header !== option) {
    if (gravity?.unit !== option) return refuse('unit-conflict', { path, header, option, gravity });
    const remark = finding('unit-overruled', 'warning', { header, option, length: gravity.length });
    return success({ ...settled, remark });
  }
  const doubt = header === undefined && gravity ? doubtOf(option, 'option', gravity) : undefined;
  return success(doubt ? { ...settled, remark: doubt } : settled);
}

function byHeader(path: string, header: string, gravity: Gravity | undefined): Result<UnitReading> {
  const settled: UnitReading = { unit: header, from: 'header' };
  const doubt = gravity && doubtOf(header, 'header', gravity);
  if (doubt === undefined) return success(settled);
  // With gravity taken out by the sensor, what is left may look like 1 of a smaller unit.
  const isSmall = (gravity!.length * accelerationSize(header)!) / accelerationUnits.g < settings.noGravity;
  return isSmall ? success({ ...settled, remark: doubt }) : refuse('unit-conflict', { path, header, gravity });
}

/** Numbers that are gravity in another unit than the one that is stated, and not in it, such as cm/s^2 beside mg. */
function doubtOf(stated: string, by: 'header' | 'option', { unit, length }: Gravity): Finding | undefined {
  const size = accelerationSize(stated);
  if (unit === stated || size === undefined || isGravity(length * size)) return undefined;
  return finding('unit-doubtful', 'warning', { stated, by, length, gravity: unit });
}
