import type { RecordedChannel, ReadOptions } from './recording.ts';
import { Refused, figure, quote } from './refusal.ts';
import { settings } from './settings.ts';
import { accelerationSize, accelerationUnits, unitSymbol } from './units.ts';

/** What settles a recording's unit. */
export interface UnitReading {
  readonly unit: string | undefined;
  readonly from: RecordedChannel['unitFrom'];
  /** Why nothing settles it and what does, or what a careful reader would mention; one sentence. */
  readonly remark?: { readonly code: string; readonly severity: 'note' | 'warning'; readonly message: string };
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
  const power = Math.round(Math.log2(length));
  return power >= 8 && power <= 14 && Math.abs(length / 2 ** power - 1) < 0.05 ? 2 ** power : undefined;
}

/**
 * The unit of acceleration from the option, else the header, else the length of the mean vector (of three axes).
 * Where they contradict each other that is refused: an option overrules a header only if the mean vector agrees with
 * it, or if `scale` says that the numbers are counts.
 */
export function settleUnit(
  path: string,
  { header, raw, unknown }: StatedUnit,
  length: number | undefined,
  whole: boolean,
  options: ReadOptions,
): UnitReading {
  const seen = length === undefined ? undefined : unitOfGravity(length);
  const option = options.unit === undefined ? undefined : (unitSymbol(options.unit) ?? options.unit);
  if (option !== undefined) return byOption(path, option, header, seen, length, options.scale !== undefined);
  if (header !== undefined) {
    refuseContradiction(path, header, seen, length);
    return { unit: header, from: 'header', ...doubtOf(header, seen, length) };
  }
  if (raw !== undefined && !(whole && length !== undefined && countsOfGravity(length)))
    return unsettled(
      `the header says ${raw}, which is no unit of acceleration`,
      'unit g with scale, the g of one such unit',
    );
  const silent =
    unknown === undefined ? 'the header states no unit' : `the header's ${quote(unknown)} is no known unit`;
  if (length === undefined)
    return unsettled(`${silent}, and only three axes x, y and z with gravity in them would show it`, undefined, true);
  const counts = whole ? countsOfGravity(length) : undefined;
  if (counts !== undefined) {
    const scale = `unit g scale ${1 / counts}`;
    return unsettled(
      `the mean vector is ${figure(length)} long, as of a sensor with ${counts} counts a g${seen ? ` or of one in ${seen}` : ''}`,
      seen ? `${scale} or unit ${seen}` : scale,
    );
  }
  if (seen !== undefined) return { unit: seen, from: 'mean vector' };
  const why =
    length * accelerationUnits.g < 1 ? 'gravity is not in it' : 'it is gravity in none of g, mg, m/s^2 and mm/s^2';
  return unsettled(`${silent} and the mean vector is ${figure(length)} long (${why})`);
}

/** A unit that nothing settles. @param axes whether naming the axes by hand would help, too */
export function unsettled(
  why: string,
  advice = 'unit g, or whatever it is, with scale if the numbers are counts',
  axes = false,
): UnitReading {
  const name = axes ? ', or say which columns are the axes with channels x="…", y="…", z="…"' : '';
  const message = `The unit of acceleration is not settled: ${why}; write ${advice}${name}.`;
  return { unit: undefined, from: 'none', remark: { code: 'unit-unsettled', severity: 'warning', message } };
}

function byOption(
  path: string,
  option: string,
  header: string | undefined,
  seen: string | undefined,
  length: number | undefined,
  scaled: boolean,
): UnitReading {
  const settled: UnitReading = { unit: option, from: 'option' };
  if (scaled) return settled;
  if (header !== undefined && header !== option) {
    if (seen === option) {
      return {
        ...settled,
        remark: {
          code: 'unit-overruled',
          severity: 'warning',
          message: `The header says ${header}, but unit ${option} was written, and the mean vector (${figure(length!)}) agrees with it.`,
        },
      };
    }
    throw new Refused(
      'unit-conflict',
      `${path}: the header says ${header} and the option says unit ${option}${seen ? `, and the mean vector (${figure(length!)} long) is ${seen}` : ''}: leave the option out, or add scale 1 to overrule the header.`,
    );
  }
  if (
    header === undefined &&
    seen !== undefined &&
    seen !== option &&
    accelerationSize(option) !== undefined &&
    !isGravity(length! * accelerationSize(option)!)
  ) {
    return {
      ...settled,
      remark: {
        code: 'unit-doubtful',
        severity: 'warning',
        message: `The mean vector is ${figure(length!)} long, as gravity in ${seen} is, though unit ${option} was written: check it.`,
      },
    };
  }
  return settled;
}

/** Numbers that would be gravity in another unit, though so small in the header's that they may be what is left of it. */
function doubtOf(
  header: string,
  seen: string | undefined,
  length: number | undefined,
): Pick<UnitReading, 'remark'> | undefined {
  const size = accelerationSize(header);
  if (seen === undefined || seen === header || size === undefined || isGravity(length! * size)) return undefined;
  const message = `The header says ${header}, but the mean vector is ${figure(length!)} long, as gravity in ${seen} is: write unit ${header} if the sensor takes gravity out, or unit ${seen} if the header is wrong.`;
  return { remark: { code: 'unit-doubtful', severity: 'warning', message } };
}

function refuseContradiction(path: string, header: string, seen: string | undefined, length: number | undefined): void {
  const size = accelerationSize(header);
  if (seen === undefined || seen === header || size === undefined || length === undefined) return;
  // A unit of which gravity is right, too, such as cm/s^2 beside mg, is as the header says.
  if (isGravity(length * size)) return;
  // With gravity taken out by the sensor, what is left may look like 1 of a smaller unit.
  if ((length * size) / accelerationUnits.g < settings.noGravity) return;
  throw new Refused(
    'unit-conflict',
    `${path}: the header says ${header}, but the mean vector is ${figure(length)} long, which is gravity in ${seen}: write unit ${seen} or unit ${header} to settle it.`,
  );
}
