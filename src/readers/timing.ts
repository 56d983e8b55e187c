import { success, type Refused, type Result } from '../result/result.ts';
import { clockOf, type StampClock } from './clock/clock.ts';
import { disorderOf } from './clock/order.ts';
import { rushAfterGaps } from './clock/rush.ts';
import { clockFindings, countFindings } from './clock/findings.ts';
import { finding, refuse } from './messages.ts';
import type { Clock, Finding, ReadOptions } from './recording.ts';
import { readHeader } from './names.ts';
import { isTimeName } from './timeNames.ts';
import type { Roles } from './roles.ts';
import { counterSizes, unwrapped } from './clock/wrap.ts';
import { pick, rowAt, rowsOf, type Rows } from './rows.ts';
import type { SoundRows } from './soundRows.ts';
import type { TimeRole } from './timeRole.ts';
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

/** What is known of a file besides its columns. */
interface KnownBesides {
  readonly stated: StatedRate | undefined;
  /** Whether nothing settles the unit either. */
  readonly isUnsettled: boolean;
}

/** When the rows that are kept were sampled. */
export interface Timing {
  readonly clock: Clock;
  /** Rows of the table that are kept. */
  readonly rows: Rows;
  readonly findings: readonly Finding[];
  readonly stamps: StampClock | undefined;
  /** The stamps of the rows that are kept, in s on the column's own clock less its origin. */
  readonly seconds?: Float64Array;
}

/** Says when each of the kept rows was sampled. Refuses a table where nothing tells the rate, or what tells it can't be. */
export function timing(
  path: string,
  table: Table,
  roles: Roles,
  { rows, sentAgain, isOneOfSeveral }: SoundRows,
  known: KnownBesides,
  options: ReadOptions,
): Result<Timing> {
  const { time } = roles;
  const { stated } = known;
  if (!time) return withoutStamps(path, table, roles, { rows, isOneOfSeveral }, known, options);
  const column = columnName(table.columns[time.index], time.index);
  const allSeconds = pick(time.seconds, rows);
  const ofAll = clockOf(allSeconds, time.resolution);
  if (!ofAll) return refuse('time-stands-still', { path, column, isChosen: false });
  const disorder = disorderOf(allSeconds, ofAll, sentAgain);
  if (disorder) return refuse('rows-disordered', { path, column, ...disorder });
  const { slowest, fastest } = settings.possibleRate;
  if (options.rate === undefined && !(ofAll.rate >= slowest && ofAll.rate <= fastest))
    return refuse('rate-impossible', { path, column, rate: ofAll.rate });
  const rush = rushAfterGaps(allSeconds, ofAll);
  const kept = rush ? rowsOf(rows, (i) => rush[i] === 0) : rows;
  const seconds = rush ? pick(time.seconds, kept) : allSeconds;
  const stamps = (rush && clockOf(seconds, time.resolution)) ?? ofAll;
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
  const lost = rows.length - kept.length;
  const findings = [
    ...(time.assumed ? [finding('time-unit-assumed', 'warning', time.assumed)] : []),
    ...(time.astray
      ? [finding('stamps-astray', 'warning', astrayFacts(time.astray, table), { value: time.astray.rows })]
      : []),
    ...(rush ? [finding('rush', 'warning', { rows: lost }, { value: lost })] : []),
    ...clockFindings(clock, stamps, stated, (row) => table.lineOf(rowAt(kept, row))),
  ];
  return success({ clock, rows: kept, findings, stamps, seconds });
}

const astrayFacts = (
  { rows, first }: NonNullable<TimeRole['astray']>,
  { lineOf }: Table,
): { readonly rows: number; readonly line: number | undefined } => ({ rows, line: lineOf(first) });

/** Seconds to add to a clock to get UTC: of the option, where the clock has no offset of its own. */
export function zoneShift(own: string | undefined, option: string | undefined): number {
  if (option === undefined || option === 'local' || (own !== undefined && zoneMinutes(own) !== undefined)) return 0;
  return -60 * (zoneMinutes(option) ?? 0);
}

/** Without stamps the rate must be stated; a counter, or rows without a reading, still show where samples were lost. */
function withoutStamps(
  path: string,
  table: Table,
  roles: Roles,
  { rows, isOneOfSeveral }: Pick<SoundRows, 'rows' | 'isOneOfSeveral'>,
  { stated, isUnsettled }: KnownBesides,
  options: ReadOptions,
): Result<Timing> {
  const rate = options.rate ?? stated?.rate;
  if (rate === undefined) return noRate(path, table, roles, isUnsettled);
  const counts = roles.counter === undefined ? undefined : (table.columns[roles.counter] as NumberColumn).values;
  const index = counts
    ? unwrapped(pick(counts, rows), () => 1, [256, ...counterSizes])
    : rows.indices && !isOneOfSeveral
      ? Float64Array.from(rows.indices)
      : undefined;
  const counted = index ? clockOf(index, 0) : undefined;
  const stretches = counted?.stretches.map((one) => ({ ...one, start: one.start / rate })) ?? [
    { from: 0, to: rows.length, start: 0 },
  ];
  const clock: Clock = {
    rate,
    rateFrom: options.rate === undefined ? stated!.from : 'option',
    epoch: undefined,
    stretches,
    jitter: 0,
    times: undefined,
  };
  const findings = counted ? countFindings(clock, { ...counted, rate }, (row) => table.lineOf(rowAt(rows, row))) : [];
  return success({ clock, rows, findings, stamps: undefined });
}

function noRate(path: string, { columns }: Table, { counter, leftOut }: Roles, lacksUnit: boolean): Refused {
  const nameAt = (index: number): string => columnName(columns[index], index);
  return refuse('no-rate', {
    path,
    counter: counter === undefined ? undefined : nameAt(counter),
    leftOut: leftOut.map(({ index, why }) => ({ column: nameAt(index), why })),
    ofText: timeOfText(columns),
    lacksUnit,
  });
}

/** A column that is a time by its name, and text by what it holds. */
function timeOfText(columns: Table['columns']): { readonly column: string; readonly text: string } | undefined {
  for (const [index, column] of columns.entries()) {
    if (column.kind !== 'label' || column.header === undefined || !isTimeName(readHeader(column.header).name)) continue;
    return { column: columnName(column, index), text: column.labels[0] };
  }
  return undefined;
}
