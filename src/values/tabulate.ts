import type { Cells } from './cells.ts';
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

/** The tables of a value that are saved as files: its own, under no further word, then those beside it. */
export function savedTables(value: Value): readonly { readonly of?: string; readonly cells: Cells }[] {
  const { saved, savedBeside } = descriptionOf(value);
  const own = saved === undefined ? tabulate(value) : saved(value);
  return [...(own === undefined ? [] : [{ cells: own }]), ...(savedBeside?.(value) ?? [])];
}
