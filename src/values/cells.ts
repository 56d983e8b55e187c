import type { TableValue } from './table.ts';

/** What stands in one place of a table: null where there is no figure. */
export type Cell = number | string | null;

export const cell = (value: number | undefined): Cell => (value === undefined || Number.isNaN(value) ? null : value);

/** A table from its columns' names and units, and its rows. */
export function tableOf(
  caption: string,
  columns: readonly (readonly [name: string, unit: string])[],
  rows: readonly (readonly Cell[])[],
): TableValue {
  return { kind: 'table', caption, columns: columns.map(([name, unit]) => ({ name, unit })), rows };
}
