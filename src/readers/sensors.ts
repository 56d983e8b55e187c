import { success, type Result } from '../result/result.ts';
import { sideBySide, type Turn } from './interleaved.ts';
import { refuse } from './messages.ts';
import { readHeader } from './names.ts';
import type { Finding, ReadOptions } from './recording.ts';
import { keepTableRows, rowsWhere } from './rows.ts';
import { columnName, type LabelColumn, type NumberColumn, type Table } from './table.ts';
import { isSensorName } from './timeNames.ts';

/** A table of one sensor, or of several beside each other, out of one that may hold them in turn. */
export interface Picked {
  readonly table: Table;
  /** Index of the column that says which sensor a row is of. */
  readonly sensor: number | undefined;
  readonly sensors: readonly string[] | undefined;
  readonly findings: readonly Finding[];
}

/**
 * Picks the rows of one sensor of a long-form file, or sets those of several side by side. Refuses a file that holds
 * several where none of them is named, and several that are not read together.
 * @param stated the rate in Hz that the file itself states
 */
export function pickSensors(path: string, table: Table, options: ReadOptions, stated?: number): Result<Picked> {
  const { sensors: asked = [] } = options;
  const index = sensorColumn(table, asked.length > 0);
  if (index === undefined)
    return asked.length === 0
      ? success({ table, sensor: undefined, sensors: undefined, findings: [] })
      : refuse('no-sensor-column', { path, sensor: asked[0] });
  const column = table.columns[index] as LabelColumn | NumberColumn;
  const sensors =
    column.kind === 'label' ? column.labels : [...new Set(column.values)].sort((a, b) => a - b).map(String);
  const name = columnName(column, index);
  if (asked.length === 0) return refuse('which-sensor', { path, column: name, sensors });
  const turns: Turn[] = [];
  for (const sensor of asked) {
    const wanted = sensor.trim().toLowerCase();
    const at = sensors.findIndex((one) => one.trim().toLowerCase() === wanted);
    if (at < 0) return refuse('no-such-sensor', { path, column: name, sensor, sensors });
    const value = column.kind === 'label' ? at : Number(sensors[at]);
    if (turns.every((one) => one.value !== value)) turns.push({ name: wordOf(sensors[at], column.header), value });
  }
  if (turns.length > 1) {
    const beside = sideBySide(path, table, index, turns, options, stated);
    return beside.ok ? success({ ...beside.value, sensor: index, sensors }) : beside;
  }
  const rows = rowsWhere(table.rows, (row) => column.values[row] === turns[0].value);
  return success({ table: keepTableRows(table, rows), sensor: index, sensors, findings: [] });
}

/** A sensor's name as the beginning of a word of the language: `seat post` is `seat_post`, `2` under `imu` is `imu2`. */
function wordOf(sensor: string, header: string | undefined): string {
  const plain = (text: string): string =>
    text
      .trim()
      .replace(/[^\p{L}\d]+/gu, '_')
      .replace(/^_+|_+$/g, '');
  const word = plain(sensor);
  return /^\d|^$/.test(word) ? `${plain(header ?? '').replace(/^[\d_]+/, '') || 'sensor'}${word}` : word;
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
