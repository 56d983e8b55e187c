import type { NumberColumn, StampColumn, Table, TableColumn } from '../../src/readers/table.ts';

/** Numbers under a header, with as many decimals as the finest has unless said. */
export function numbers(
  header: string | undefined,
  values: readonly number[] | Float64Array,
  more: Partial<NumberColumn> = {},
): NumberColumn {
  const decimals = Math.max(0, ...Array.from(values, (value) => (String(value).split('.')[1] ?? '').length));
  return { kind: 'number', header, values: Float64Array.from(values), decimals, ...more };
}

/** Clock stamps in s from midnight of a day that is not known unless said. */
export const stamps = (
  header: string | undefined,
  values: readonly number[] | Float64Array,
  more: Partial<StampColumn> = {},
): StampColumn => ({
  kind: 'stamp',
  header,
  values: Float64Array.from(values),
  base: undefined,
  clock: true,
  style: 'clock',
  zone: undefined,
  quantum: 0.01,
  doubtful: false,
  ...more,
});

export const labels = (header: string, values: readonly string[]): TableColumn => {
  const known = [...new Set(values)];
  return { kind: 'label', header, values: Float64Array.from(values, (value) => known.indexOf(value)), labels: known };
};

/** A table whose first row is on line 2. */
export const tableOf = (columns: readonly TableColumn[], more: Partial<Table> = {}): Table => ({
  columns,
  rows: columns[0].kind === 'other' ? 0 : columns[0].values.length,
  named: true,
  lineOf: (row) => row + 2,
  ...more,
});

/** `value(0)`, `value(1)`… */
export const each = (count: number, value: (i: number) => number): number[] =>
  Array.from({ length: count }, (_, i) => value(i));

/** Numbers that do not rise for long, the same for the same seed. */
export const noise = (count: number, seed = 1): number[] =>
  each(count, (i) => Math.round(1000 * Math.sin(seed + 2.3 * i)) / 1000);
