import { clockOf, type StampClock } from './clock/clock.ts';
import { rushAfterGaps } from './clock/rush.ts';
import { clockFindings } from './clock/findings.ts';
import type { Clock, Finding, ReadOptions, Stretch } from './recording.ts';
import { readHeader } from './names.ts';
import { Refused, figure, quote } from './refusal.ts';
import { isTimeName } from './time-names.ts';
import type { Roles } from './roles.ts';
import { counterSizes, unwrapped } from './clock/wrap.ts';
import { pick, rowAt, rowsWhere, type Rows } from './rows.ts';
import { settings } from './settings.ts';
import { columnName, type NumberColumn, type Table } from './table.ts';
import { zoneMinutes } from './text/stamp.ts';

/** Rate that a file states outside of its rows, in Hz. */
export interface StatedRate {
  readonly rate: number;
  readonly from: 'preamble' | 'file header';
  /** How the file calls it. */
  readonly name: string;
}

export interface Timing {
  readonly clock: Clock;
  /** Rows of the table that are kept. */
  readonly rows: Rows;
  readonly findings: readonly Finding[];
  readonly stamps: StampClock | undefined;
}

/** Says when each of the kept rows was sampled. Throws `Refused` where nothing tells the rate. */
export function timing(
  path: string,
  table: Table,
  roles: Roles,
  rows: Rows,
  stated: StatedRate | undefined,
  options: ReadOptions,
): Timing {
  const { time } = roles;
  if (!time) return uncounted(path, table, roles, rows, stated, options);
  let kept = rows;
  let seconds = pick(time.seconds, kept);
  let stamps = clockOf(seconds, time.spelling);
  if (!stamps)
    throw new Refused(
      'time-stands-still',
      `${path}: ${columnName(table.columns[time.index], time.index)} does not run forward, so it tells no rate: name another column with time, or state the rate with rate.`,
    );
  refuseRate(path, table, time.index, stamps.rate, options);
  const rush = rushAfterGaps(seconds, stamps);
  const findings: Finding[] = [];
  if (rush) {
    const before = kept;
    const left = rowsWhere(before.length, (row) => rush[row] === 0);
    kept = { ...left, indices: left.indices?.map((row) => rowAt(before, row)) };
    seconds = pick(time.seconds, kept);
    stamps = clockOf(seconds, time.spelling) ?? stamps;
    const lost = before.length - kept.length;
    findings.push({
      code: 'rush',
      severity: 'warning',
      message: `${lost} rows right after gaps have stamps in a rush, so that nobody can tell when they were sampled; they were left out.`,
      value: lost,
    });
  }
  const rate = options.rate ?? stamps.rate;
  const stretch = stamps.rate / rate;
  const day = time.base === undefined ? 0 : time.base + zoneShift(time.zone, options.timezone);
  const clock: Clock = {
    rate,
    rateFrom: options.rate === undefined ? 'stamps' : 'option',
    epoch: day + time.origin + seconds[0],
    stretches: stamps.stretches.map((one) => ({ ...one, start: one.start * stretch })),
    jitter: stamps.jitter,
    times: stretch === 1 ? stamps.times : stamps.times?.map((t) => t * stretch),
  };
  findings.push(...clockFindings(clock, stamps, stated, (row) => table.lineOf(rowAt(kept, row))));
  return { clock, rows: kept, findings, stamps };
}

/** Times that would be of no logger at all are read in a wrong unit, or are none. */
function refuseRate(path: string, table: Table, index: number, rate: number, options: ReadOptions): void {
  const { slowest, fastest } = settings.possibleRate;
  if (options.rate !== undefined || (rate >= slowest && rate <= fastest)) return;
  throw new Refused(
    'rate-impossible',
    `${path}: by ${columnName(table.columns[index], index)} the rate would be ${figure(rate)} Hz, which no logger has: name another column with time, or state the rate with rate.`,
  );
}

/** Seconds to add to a clock without an offset of its own to get UTC. */
function zoneShift(own: string | undefined, option: string | undefined): number {
  if (option === undefined || option === 'local' || (own !== undefined && zoneMinutes(own) !== undefined)) return 0;
  return -60 * (zoneMinutes(option) ?? 0);
}

/** Without stamps the rate must be stated; a counter, or rows without a reading, still show where samples were lost. */
function uncounted(
  path: string,
  table: Table,
  roles: Roles,
  rows: Rows,
  stated: StatedRate | undefined,
  options: ReadOptions,
): Timing {
  const rate = options.rate ?? stated?.rate;
  if (rate === undefined) throw new Refused('no-rate', noRate(path, table, roles));
  const counts = roles.counter === undefined ? undefined : (table.columns[roles.counter] as NumberColumn).values;
  const index = counts
    ? unwrapped(pick(counts, rows), 1, [256, ...counterSizes])
    : rows.indices
      ? Float64Array.from(rows.indices)
      : undefined;
  const counted = index ? clockOf(index, 0) : undefined;
  const whole: Stretch[] = [{ from: 0, to: rows.length, start: 0 }];
  const stretches = counted?.stretches.map((one) => ({ ...one, start: one.start / rate })) ?? whole;
  const clock: Clock = {
    rate,
    rateFrom: options.rate === undefined ? stated!.from : 'option',
    epoch: undefined,
    stretches,
    jitter: 0,
    times: undefined,
  };
  const findings = counted
    ? clockFindings(
        clock,
        { ...counted, rate, jitter: 0, repeated: 0, backward: 0, delivery: 'even' },
        undefined,
        (row) => table.lineOf(rowAt(rows, row)),
      )
    : [];
  return { clock, rows, findings, stamps: undefined };
}

function noRate(path: string, table: Table, { counter, leftOut }: Roles): string {
  const what =
    counter === undefined
      ? 'no column tells the time'
      : `${columnName(table.columns[counter], counter)} counts rows and no column tells the time`;
  const still =
    leftOut.length > 0
      ? ` (${leftOut.map(({ index, why }) => `${columnName(table.columns[index], index)}: ${why}`).join('; ')})`
      : '';
  const text = timeOfText(table);
  return `${path}: ${what}${still}${text}: state the rate with rate, such as rate 400 Hz, or name the time column with time.`;
}

/** A column that is a time by its name, and text by what it holds. */
function timeOfText({ columns }: Table): string {
  for (const [index, column] of columns.entries()) {
    if (column.kind !== 'label' || column.header === undefined || !isTimeName(readHeader(column.header).name)) continue;
    return ` (${columnName(column, index)} holds text such as ${quote(column.labels[0])})`;
  }
  return '';
}
