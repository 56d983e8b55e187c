import { detail, figure } from './columns.ts';
import { cellsOf } from './cells.ts';
import type { Description } from './description.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

/** A run sheet as read. */
export interface SheetValue {
  readonly kind: 'sheet';
  readonly file: string;
  readonly columns: readonly string[];
  readonly rows: readonly SheetRow[];
}

export interface SheetRow {
  /** 1-based line in the sheet. */
  readonly line?: number;
  /** Relative to the notebook's folder; empty for a run that has no recording yet. */
  readonly file: string;
  readonly condition: string | undefined;
  readonly order: number | undefined;
  readonly excluded: boolean;
  readonly why: string | undefined;
  /** All cells of the row, by the column's header. */
  readonly facts: Readonly<Record<string, string>>;
}

/** Its table has the columns of the file. */
export const sheetKind = {
  kind: 'sheet',
  words: 'a run sheet',
  summary: ({ rows }) => inShort('a run sheet', counted(rows.length, 'row')),
  whole: [figure('file', '', ({ file }) => file), detail('columns', ({ columns }) => columns)],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['run', 'a run'],
    names: [],
    columns: [
      figure('file', '', ({ file }) => file),
      figure('condition', '', ({ condition }) => condition),
      figure('order', '', ({ order }) => order),
      figure('excluded', '', ({ excluded }) => excluded),
      figure('why', '', ({ why }) => why),
      detail('cells', ({ facts }) => facts, 'parts'),
    ],
  },
  table: ({ file, columns, rows }) =>
    cellsOf(
      file,
      columns.map((name) => [name, '']),
      rows.map(({ facts }) => columns.map((name) => facts[name] ?? '')),
    ),
  runs: () => [],
} satisfies Description<SheetValue, SheetRow>;
