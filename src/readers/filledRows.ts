import { success, type Result } from '../result/result.ts';
import { hasGaps } from './gaps.ts';
import { finding, refuse } from './messages.ts';
import { readHeader } from './names.ts';
import type { Finding, RecordedChannel } from './recording.ts';
import { rowsWhere, type Rows } from './rows.ts';
import type { Table } from './table.ts';

/** The rows that hold what is needed. */
export interface FilledRows {
  readonly rows: Rows;
  readonly findings: readonly Finding[];
  /** Whether the rows between are those of other sensors, so that nothing is lost there. */
  readonly isOneOfSeveral: boolean;
}

/** Share of the rows that may lack a reading as losses; columns of one sensor are filled together in so large a share. */
const [mostLost, filledTogether] = [0.5, 0.95];

/**
 * The rows that hold a stamp and a reading of every axis, or of every channel where none is an axis. Where sensors fill
 * different rows of one table, those of the sensor that is asked for, or of the only one with axes. Refuses a table in
 * which several sensors have axes and none is asked for, and one of which more than half the rows hold none.
 * @param asked names of channels that are to be read, of all that there are
 */
export function filledRows(
  path: string,
  table: Table,
  stamps: Float64Array | undefined,
  channels: readonly RecordedChannel[],
  asked: readonly string[],
): Result<FilledRows> {
  const axes = channels.filter(({ axis }) => axis);
  const all = axes.length > 0 ? axes : channels;
  if (![...all.map(({ samples }) => samples), ...(stamps ? [stamps] : [])].some(hasGaps))
    return success({ rows: { length: table.rows }, findings: [], isOneOfSeveral: false });
  let needed = all;
  let rows = rowsWith(table, needed, stamps);
  if (rows.length < mostLost * table.rows) {
    const meant = channels.filter((one) => asked.some((name) => isCalled(one, name)));
    needed = meant.length > 0 ? meant : all;
    rows = rowsWith(table, needed, stamps);
    const most = fullest(table, needed, stamps);
    if (rows.length < filledTogether * most.rows) {
      const other = needed.find(
        (one) => rowsWith(table, [most.channel, one], stamps).length < filledTogether * most.rows,
      );
      const facts = { one: most.channel.name, other: other?.name ?? '', both: rows.length, rows: table.rows };
      return rows.length > 0.1 * most.rows
        ? mostlyEmpty(path, table, rows)
        : refuse('filled-apart', { path, ...facts });
    }
  }
  return settledRows(path, table, { needed, rows });
}

function settledRows(
  path: string,
  table: Table,
  { needed, rows }: { readonly needed: readonly RecordedChannel[]; readonly rows: Rows },
): Result<FilledRows> {
  const empty = table.rows - rows.length;
  if (empty === 0) return success({ rows, findings: [], isOneOfSeveral: false });
  const others = rowsOfOthers(table, needed);
  if (others >= filledTogether * empty) {
    const facts = { others, rows: table.rows, channels: needed.map(({ name }) => name) };
    return success({ rows, findings: [finding('other-rows', 'note', facts, { value: others })], isOneOfSeveral: true });
  }
  if (empty > mostLost * table.rows) return mostlyEmpty(path, table, rows);
  const facts = { empty, rows: table.rows, line: table.lineOf(firstLeftOut(rows)) };
  return success({
    rows,
    findings: [finding('empty-cells', 'warning', facts, { value: empty })],
    isOneOfSeveral: false,
  });
}

const mostlyEmpty = (path: string, table: Table, rows: Rows): ReturnType<typeof refuse> =>
  refuse('mostly-empty', {
    path,
    empty: table.rows - rows.length,
    rows: table.rows,
    line: table.lineOf(firstLeftOut(rows)),
  });

const rowsWith = (table: Table, channels: readonly RecordedChannel[], stamps: Float64Array | undefined): Rows =>
  rowsWhere(
    table.rows,
    (row) => !Number.isNaN(stamps?.[row] ?? 0) && channels.every(({ samples }) => !Number.isNaN(samples[row])),
  );

/** The channel that is filled in most rows, and in how many. */
function fullest(
  table: Table,
  channels: readonly RecordedChannel[],
  stamps: Float64Array | undefined,
): { readonly channel: RecordedChannel; readonly rows: number } {
  const counted = channels.map((channel) => ({ channel, rows: rowsWith(table, [channel], stamps).length }));
  return counted.reduce((most, one) => (one.rows > most.rows ? one : most));
}

/** How many rows hold none of the channels that are needed, and a reading of something else. */
function rowsOfOthers({ columns, rows }: Table, needed: readonly RecordedChannel[]): number {
  const own = new Set(needed.map(({ samples }) => samples));
  const gappy = columns.flatMap((one) =>
    one.kind === 'number' && !own.has(one.values) && hasGaps(one.values) ? [one.values] : [],
  );
  let count = 0;
  for (let row = 0; row < rows; row++) {
    if (!needed.every(({ samples }) => Number.isNaN(samples[row]))) continue;
    if (gappy.some((values) => !Number.isNaN(values[row]))) count++;
  }
  return count;
}

/** Whether a channel is meant by a name: its own, its header, or its header without the unit. */
export const isCalled = ({ name, header }: Pick<RecordedChannel, 'name' | 'header'>, asked: string): boolean => {
  const plain = asked.trim().toLowerCase();
  const known = [name, ...(header === undefined ? [] : [header, readHeader(header).name])];
  return known.some((one) => one.trim().toLowerCase() === plain);
};

/** The first row that is not kept. */
function firstLeftOut({ length, indices }: Rows): number {
  const found = indices?.findIndex((row, i) => row !== i) ?? -1;
  return found < 0 ? length : found;
}
