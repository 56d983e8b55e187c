import type { RecordedChannel, ReadOptions } from './recording.ts';
import { Refused, figure } from './refusal.ts';
import { settings } from './settings.ts';
import { accelerationUnits, unitSymbol } from './units.ts';

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
}

/** Unit in which a mean vector of this length would be gravity, or undefined. */
export function unitOfGravity(length: number): string | undefined {
  for (const [unit, size] of Object.entries(accelerationUnits)) {
    const share = (length * size) / accelerationUnits.g;
    if (share >= settings.gravity.low && share <= settings.gravity.high) return unit;
  }
  return undefined;
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
  { header, raw }: StatedUnit,
  length: number | undefined,
  whole: boolean,
  options: ReadOptions,
): UnitReading {
  const seen = length === undefined ? undefined : unitOfGravity(length);
  const option = options.unit === undefined ? undefined : (unitSymbol(options.unit) ?? options.unit);
  if (option !== undefined) return byOption(path, option, header, seen, length, options.scale !== undefined);
  if (header !== undefined) {
    refuseContradiction(path, header, seen, length);
    return { unit: header, from: 'header' };
  }
  if (raw !== undefined && !(whole && length !== undefined && countsOfGravity(length)))
    return unsettled(
      `the header says ${raw}, which is no unit of acceleration`,
      'unit g with scale, the g of one such unit',
    );
  if (length === undefined)
    return unsettled('the header states no unit, and only three axes with gravity in them would show it');
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
  return unsettled(`the header states no unit and the mean vector is ${figure(length)} long (${why})`);
}

function unsettled(
  why: string,
  advice = 'unit g, or whatever it is, with scale if the numbers are counts',
): UnitReading {
  const message = `The unit of acceleration is not settled: ${why}; write ${advice}.`;
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
  if (header === undefined && seen !== undefined && seen !== option && option in accelerationUnits) {
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

function refuseContradiction(path: string, header: string, seen: string | undefined, length: number | undefined): void {
  const size = accelerationUnits[header];
  if (seen === undefined || seen === header || size === undefined || length === undefined) return;
  // With gravity taken out by the sensor, what is left may look like 1 of a smaller unit.
  if ((length * size) / accelerationUnits.g < settings.noGravity) return;
  throw new Refused(
    'unit-conflict',
    `${path}: the header says ${header}, but the mean vector is ${figure(length)} long, which is gravity in ${seen}: write unit ${seen} or unit ${header} to settle it.`,
  );
}
