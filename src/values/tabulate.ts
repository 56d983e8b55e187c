import type { Cells } from './cells.ts';
import { parseUnit } from '../units/parse.ts';
import { decibelsOf, levelIn, type LevelReference } from './decibels.ts';
import { finite } from './jsonNumbers.ts';
import { descriptionOf } from './kinds.ts';
import { figureCells, figuresIn, rowsCells } from './rows.ts';
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

/** The numbers behind a value with every size as a level in dB; undefined where none of it measures what the reference does. */
export function tabulateLevels(value: Value, reference: LevelReference): TableValue | undefined {
  const table = tabulate(value);
  if (table === undefined) return undefined;
  const signed = figuresIn(descriptionOf(value).rows?.columns ?? []).flatMap(({ key, eitherSign }) =>
    eitherSign === true ? [key] : [],
  );
  const scales = table.columns.map(({ name, unit }) => {
    const own = parseUnit(unit);
    return unit === '' || !own.ok || signed.includes(name) ? undefined : decibelsOf(own.unit, reference);
  });
  if (scales.every((scale) => scale === undefined)) return undefined;
  return {
    ...table,
    columns: table.columns.map((column, at) => ({ ...column, unit: scales[at]?.symbol ?? column.unit })),
    rows: table.rows.map((row) =>
      row.map((cell, at) => {
        const scale = scales[at];
        return scale === undefined || typeof cell !== 'number' ? cell : finite(levelIn(scale, cell));
      }),
    ),
  };
}

/** The tables of a value that are saved as files: its own, under no further word, then those beside it. */
export function savedTables(value: Value): readonly { readonly of?: string; readonly cells: Cells }[] {
  const { saved, savedBeside } = descriptionOf(value);
  const own = saved === undefined ? tabulate(value) : saved(value);
  return [...(own === undefined ? [] : [{ cells: own }]), ...(savedBeside?.(value) ?? [])];
}
