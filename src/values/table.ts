import { detail, figure } from './columns.ts';
import type { Cells } from './cells.ts';
import type { Description } from './description.ts';
import { parseUnit } from '../units/parse.ts';
import type { Unit } from '../units/unit.ts';
import { scalingTo } from './scaling.ts';
import { finite } from './jsonNumbers.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

export interface TableValue extends Cells {
  readonly kind: 'table';
}

/** Every column that measures what the unit does, in it. */
function tableIn(value: TableValue, asked: Unit): TableValue | undefined {
  const scalings = value.columns.map(({ unit }) => {
    const own = parseUnit(unit);
    return unit === '' || !own.ok ? undefined : scalingTo(own.unit, asked);
  });
  if (scalings.every((one) => one === undefined)) return undefined;
  return {
    ...value,
    columns: value.columns.map((column, at) => ({ ...column, unit: scalings[at]?.unit.symbol ?? column.unit })),
    rows: value.rows.map((row) =>
      row.map((cell, at) => (typeof cell === 'number' ? cell * (scalings[at]?.factor ?? 1) : cell)),
    ),
  };
}

export const tableKind = {
  kind: 'table',
  words: 'a table',
  summary: ({ rows }) => inShort('a table', counted(rows.length, 'row')),
  whole: [
    figure('caption', '', ({ caption }) => caption),
    detail('columns', ({ columns }) => columns.map(({ name, unit }) => ({ name, unit }))),
    detail('rows', ({ rows }) =>
      rows.map((row) => row.map((cell) => (typeof cell === 'number' ? finite(cell) : cell))),
    ),
  ],
  table: ({ caption, columns, rows }) => ({ caption, columns, rows }),
  inUnit: tableIn,
  runs: () => [],
} satisfies Description<TableValue>;
