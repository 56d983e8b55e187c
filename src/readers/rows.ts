import type { Table, TableColumn } from './table.ts';

/** Which rows of a table are kept, in order: all of the first `length` where no indices stand. */
export interface Rows {
  readonly length: number;
  readonly indices?: Int32Array | undefined;
}

/** The rows of so many that pass a test. */
export function rowsWhere(count: number, test: (row: number) => boolean): Rows {
  const rows = new Int32Array(count);
  let kept = 0;
  for (let row = 0; row < count; row++) if (test(row)) rows[kept++] = row;
  return { length: kept, indices: rows.subarray(0, kept) };
}

/** Those of some rows whose i-th passes a test. */
export function rowsOf(rows: Rows, test: (i: number) => boolean): Rows {
  const kept = rowsWhere(rows.length, test);
  return { length: kept.length, indices: kept.indices?.map((i) => rowAt(rows, i)) };
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

/** A table of some of its rows. */
export function keepTableRows(table: Table, rows: Rows): Table {
  const columns = table.columns.map((column): TableColumn =>
    column.kind === 'other' ? column : { ...column, values: pick(column.values, rows) },
  );
  return { ...table, columns, rows: rows.length, lineOf: (row) => table.lineOf(rowAt(rows, row)) };
}
