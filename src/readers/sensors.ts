import { success, type Result } from '../result/result.ts';
import { refuse } from './messages.ts';
import { readHeader } from './names.ts';
import type { ReadOptions } from './recording.ts';
import { pick, rowAt, rowsWhere, type Rows } from './rows.ts';
import { columnName, type LabelColumn, type NumberColumn, type Table, type TableColumn } from './table.ts';
import { isSensorName } from './timeNames.ts';

/** A table of one sensor, out of one that may hold several in turn. */
export interface Picked {
  readonly table: Table;
  /** Index of the column that says which sensor a row is of. */
  readonly sensor: number | undefined;
  readonly sensors: readonly string[] | undefined;
}

/** Picks the rows of one sensor of a long-form file. Refuses a file that holds several where none of them is named. */
export function pickSensor(path: string, table: Table, { sensor }: ReadOptions): Result<Picked> {
  const index = sensorColumn(table, sensor !== undefined);
  if (index === undefined)
    return sensor === undefined
      ? success({ table, sensor: undefined, sensors: undefined })
      : refuse('no-sensor-column', { path, sensor });
  const column = table.columns[index] as LabelColumn | NumberColumn;
  const sensors =
    column.kind === 'label' ? column.labels : [...new Set(column.values)].sort((a, b) => a - b).map(String);
  const name = columnName(column, index);
  if (sensor === undefined) return refuse('which-sensor', { path, column: name, sensors });
  const wanted = sensor.trim().toLowerCase();
  const at = sensors.findIndex((one) => one.trim().toLowerCase() === wanted);
  if (at < 0) return refuse('no-such-sensor', { path, column: name, sensor, sensors });
  const value = column.kind === 'label' ? at : Number(sensors[at]);
  const rows = rowsWhere(table.rows, (row) => column.values[row] === value);
  return success({ table: keepTableRows(table, rows), sensor: index, sensors });
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

function keepTableRows(table: Table, rows: Rows): Table {
  const columns = table.columns.map((column): TableColumn =>
    column.kind === 'other' ? column : { ...column, values: pick(column.values, rows) },
  );
  return { ...table, columns, rows: rows.length, lineOf: (row) => table.lineOf(rowAt(rows, row)) };
}
