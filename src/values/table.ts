import { detail, figure } from './columns.ts';
import type { Cells } from './cells.ts';
import type { Description } from './description.ts';
import { finite } from './jsonNumbers.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

export interface TableValue extends Cells {
  readonly kind: 'table';
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
  runs: () => [],
} satisfies Description<TableValue>;
