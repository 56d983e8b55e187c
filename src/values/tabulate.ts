import { descriptionOf } from './kinds.ts';
import { figureCells, rowsCells } from './rows.ts';
import type { TableValue } from './table.ts';
import type { Value } from './value.ts';

/** The numbers behind a value, as a table with its units; undefined for a value that has none. */
export function tabulate(value: Value): TableValue | undefined {
  const { table, caption, whole, rows } = descriptionOf(value);
  if (table !== undefined) return { kind: 'table', ...table(value) };
  if (caption === undefined) return undefined;
  const called = caption(value);
  const cells = rows === undefined ? figureCells(called, whole, [value], value) : rowsCells(called, rows, value);
  return { kind: 'table', ...cells };
}
