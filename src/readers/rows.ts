import { stepShape } from './clock/steps.ts';
import { hasGaps } from './gaps.ts';
import type { Finding, ReadOptions, RecordedChannel } from './recording.ts';
import { Refused, list, quote } from './refusal.ts';
import { columnName, type LabelColumn, type NumberColumn, type Table, type TableColumn } from './table.ts';
import { isSensorName } from './time-names.ts';
import { readHeader } from './names.ts';

/** A table of one sensor, out of one that may hold several in turn. */
export interface Picked {
  readonly table: Table;
  /** Index of the column that says which sensor a row is of. */
  readonly sensor: number | undefined;
  readonly sensors: readonly string[] | undefined;
}

/** Picks the rows of one sensor of a long-form file. Throws `Refused` where the file holds several and none is named. */
export function pickSensor(path: string, table: Table, options: ReadOptions): Picked {
  const index = sensorColumn(table, options.sensor !== undefined);
  if (index === undefined) {
    if (options.sensor === undefined) return { table, sensor: undefined, sensors: undefined };
    throw new Refused(
      'no-sensor-column',
      `${path}: sensor "${options.sensor}" was asked for, but no column says which sensor a row is of: leave sensor out.`,
    );
  }
  const column = table.columns[index] as LabelColumn | NumberColumn;
  const names = column.kind === 'label' ? column.labels : [...new Set(column.values)].sort((a, b) => a - b).map(String);
  const name = columnName(column, index);
  if (options.sensor === undefined) {
    throw new Refused(
      'which-sensor',
      `${path}: ${name} holds ${names.length} sensors in turn (${list(names.map((one) => `"${one}"`))}): pick one with sensor, such as sensor "${names[0]}".`,
    );
  }
  const wanted = options.sensor.trim().toLowerCase();
  const at = names.findIndex((one) => one.trim().toLowerCase() === wanted);
  if (at < 0) {
    throw new Refused(
      'no-such-sensor',
      `${path}: ${name} holds no sensor ${quote(options.sensor)}; it holds ${list(names.map((one) => `"${one}"`))}.`,
    );
  }
  const value = column.kind === 'label' ? at : Number(names[at]);
  const rows = rowsWhere(table.rows, (row) => column.values[row] === value);
  return { table: keepTableRows(table, rows), sensor: index, sensors: names };
}

function sensorColumn(table: Table, asked: boolean): number | undefined {
  const found = table.columns.findIndex((column) => {
    const name = column.header === undefined ? undefined : readHeader(column.header).name;
    if (column.kind === 'label') {
      return column.labels.length > 1 && ((name !== undefined && isSensorName(name)) || takesTurns(column));
    }
    return column.kind === 'number' && name !== undefined && isSensorName(name) && isNumberOfSensor(column);
  });
  if (found >= 0 || !asked) return found < 0 ? undefined : found;
  const label = table.columns.findIndex(({ kind }) => kind === 'label');
  return label < 0 ? undefined : label;
}

/** Whether labels follow each other round and round, as sensors polled in turn do and labels of activities do not. */
function takesTurns({ values, labels }: LabelColumn): boolean {
  const period = labels.length;
  if (period > 64 || values.length < 3 * period) return false;
  let same = 0;
  for (let i = period; i < values.length; i++) if (values[i] === values[i - period]) same++;
  let changes = 0;
  for (let i = 1; i < values.length; i++) if (values[i] !== values[i - 1]) changes++;
  return same >= 0.9 * (values.length - period) && changes >= 0.9 * (values.length - 1);
}

function isNumberOfSensor({ values, decimals }: NumberColumn): boolean {
  if (decimals > 0) return false;
  const seen = new Set<number>();
  for (let i = 0; i < values.length; i++) {
    if (!seen.has(values[i]) && (seen.size === 64 || Number.isNaN(values[i]) || seen.add(values[i]).size === 0))
      return false;
  }
  return seen.size > 1;
}

/** Which rows of a table are kept, in order: all of the first `length` where no indices stand. */
export interface Rows {
  readonly length: number;
  readonly indices?: Int32Array | undefined;
}

export function rowsWhere(count: number, test: (row: number) => boolean): Rows {
  const rows = new Int32Array(count);
  let kept = 0;
  for (let row = 0; row < count; row++) if (test(row)) rows[kept++] = row;
  return { length: kept, indices: rows.subarray(0, kept) };
}

/** The row of the table that is the i-th kept. */
export const rowAt = ({ indices }: Rows, i: number): number => (indices ? indices[i] : i);

/** Some of an array's values, in the order of the rows named; the array itself where those are all of them. */
export function pick(values: Float64Array, { length, indices }: Rows): Float64Array {
  if (!indices) return values;
  const result = new Float64Array(length);
  for (let i = 0; i < length; i++) result[i] = values[indices[i]];
  return result;
}

function keepTableRows(table: Table, rows: Rows): Table {
  const columns = table.columns.map((column): TableColumn =>
    column.kind === 'other' ? column : { ...column, values: pick(column.values, rows) },
  );
  return { ...table, columns, rows: rows.length, lineOf: (row) => table.lineOf(rowAt(rows, row)) };
}

/** Rows that hold a stamp and a reading of every axis, less those that say the same as the row before. */
export function soundRows(
  path: string,
  table: Table,
  stamps: Float64Array | undefined,
  channels: readonly RecordedChannel[],
): { readonly rows: Rows; readonly findings: readonly Finding[] } {
  const needed = channels.filter(({ axis }) => axis);
  const columns = (needed.length > 0 ? needed : channels).map(({ samples }) => samples);
  const all = channels.map(({ samples }) => samples);
  const repeats = stamps !== undefined && stampsRepeatRows(stamps, all);
  if (!repeats && !columns.some(hasGaps) && !(stamps && hasGaps(stamps)))
    return { rows: { length: table.rows }, findings: [] };
  const findings: Finding[] = [];
  let empty = 0;
  let firstEmpty = -1;
  let repeated = 0;
  let last = -1;
  const rows = rowsWhere(table.rows, (row) => {
    for (const values of columns) {
      if (Number.isNaN(values[row])) {
        if (empty++ === 0) firstEmpty = row;
        return false;
      }
    }
    if (stamps && Number.isNaN(stamps[row])) {
      if (empty++ === 0) firstEmpty = row;
      return false;
    }
    const before = last;
    last = row;
    if (
      !stamps ||
      !repeats ||
      before < 0 ||
      stamps[row] !== stamps[before] ||
      !all.every((values) => Object.is(values[row], values[before]))
    )
      return true;
    repeated++;
    return false;
  });
  const count = (n: number, one: string): string => `${n} ${n === 1 ? one : `${one}s`}`;
  if (empty > 0) {
    const line = table.lineOf(firstEmpty);
    if (empty > 0.5 * table.rows)
      throw new Refused(
        'mostly-empty',
        `${path}${line === undefined ? '' : `:${line}`}: ${count(empty, 'row')} of ${table.rows} hold no reading in one of the columns that are needed: name the columns with channels, or mend the file.`,
      );
    findings.push({
      code: 'empty-cells',
      severity: 'warning',
      message: `${count(empty, 'row')} of ${table.rows} ${empty === 1 ? 'holds' : 'hold'} no reading${line === undefined ? '' : ` (first at line ${line})`} and ${empty === 1 ? 'counts as a lost sample' : 'count as lost samples'}.`,
      value: empty,
    });
  }
  if (repeated > 0)
    findings.push({
      code: 'rows-repeated',
      severity: 'note',
      message: `${count(repeated, 'row')} of ${table.rows} repeat the stamp and the readings of the row before and were left out.`,
      value: repeated,
    });
  return { rows, findings };
}

/** Whether a stamp that comes again brings the same readings again: the row is then a repeat, not a sample of its own. */
function stampsRepeatRows(stamps: Float64Array, columns: readonly Float64Array[]): boolean {
  if (stepShape(stamps).zero === 0) return false;
  let same = 0;
  let repeats = 0;
  for (let i = 1; i < stamps.length; i++) {
    if (stamps[i] !== stamps[i - 1]) continue;
    same++;
    if (columns.every((values) => Object.is(values[i], values[i - 1]))) repeats++;
  }
  return repeats > 0 && repeats >= 0.9 * same;
}
