import type { RunReport, StatementResult } from '../engine/result.ts';
import { cellsOf, type Cells } from '../values/cells.ts';
import { csvOf } from '../values/csv.ts';
import { savedTables } from '../values/tabulate.ts';
import type { Value } from '../values/value.ts';
import { withOwnStems, type MadeFile } from './named.ts';

export const tableFormats = ['csv', 'parquet'] as const;
export type TableFormat = (typeof tableFormats)[number];

interface Table {
  readonly stem: string;
  readonly from: StatementResult;
  readonly cells: Cells;
}

/**
 * Every table of a run as files: one a result, called by its name, and all quantities in one. Figures stand in full, with
 * their units in the headings; spectra in long form; beside a comparison the level of each run. The same for every door.
 */
export async function tableFiles({ results }: RunReport, format: TableFormat): Promise<readonly MadeFile[]> {
  // What only shows a name has its file by that name.
  const own = results.filter(({ shows }) => shows === undefined);
  const tables = [...own.flatMap(tablesOf), ...quantities(own)];
  const files: MadeFile[] = [];
  for (const { stem, from, cells } of withOwnStems(tables)) {
    // Loaded only here: most tables are text.
    const content = format === 'csv' ? csvOf(cells) : (await import('./parquet.ts')).parquetOf(cells);
    files.push({ file: `${stem}.${format}`, content, cell: from.cell, title: cells.caption });
  }
  return files;
}

/** A statement counts where it has a name or is shown: the rest of a cell is on its way to these. */
function tablesOf(result: StatementResult): Table[] {
  const { value, name, shown, called } = result;
  if (value === undefined || value.kind === 'quantity' || (name === undefined && !shown)) return [];
  return stemmed(value, called).map((table) => ({ ...table, from: result }));
}

function stemmed(value: Value, called: string): Omit<Table, 'from'>[] {
  // What a chart draws has a file by its own name, where it has one.
  if (value.kind === 'chart')
    return value.subjects
      .filter(({ name }) => name === undefined)
      .flatMap((subject) => stemmed(subject.value, `${called}-${subject.value.kind}`));
  return savedTables(value).map(({ of, cells }) => ({ stem: of === undefined ? called : `${called}-${of}`, cells }));
}

function quantities(results: readonly StatementResult[]): Table[] {
  const found = results.flatMap((result) =>
    result.value?.kind === 'quantity' ? [{ result, value: result.value }] : [],
  );
  if (found.length === 0) return [];
  const rows = found.map(({ result: { called }, value: { quantity } }) => [
    called,
    Number.isFinite(quantity.value) ? quantity.value : null,
    quantity.unit.symbol,
  ]);
  const columns = [
    ['name', ''],
    ['value', ''],
    ['unit', ''],
  ] as const;
  return [{ stem: 'quantities', from: found[0].result, cells: cellsOf('Quantities', columns, rows) }];
}
