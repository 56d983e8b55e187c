import { cellsOf } from './cells.ts';
import type { Description } from './description.ts';

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
  whole: [
    { key: 'file', read: ({ file }) => file },
    { key: 'columns', json: ({ columns }) => columns },
  ],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['run', 'a run'],
    names: [],
    columns: [
      { key: 'file', read: ({ file }) => file },
      { key: 'condition', read: ({ condition }) => condition },
      { key: 'order', read: ({ order }) => order },
      { key: 'excluded', read: ({ excluded }) => excluded },
      { key: 'why', read: ({ why }) => why },
      { key: 'cells', json: ({ facts }) => facts },
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
