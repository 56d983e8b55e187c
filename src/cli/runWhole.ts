import { basename } from 'node:path';
import { reportJson } from '../engine/json.ts';
import { parted, withNumberCells, type NumberCheck } from '../engine/proseNumbers.ts';
import type { RunReport, RunRequest } from '../engine/result.ts';
import { makeRecord, type NotebookRecord, type RunDocument } from '../notebook/record.ts';
import { tool } from '../result/version.ts';
import type { OpenNotebook } from './notebookFile.ts';
import { terminalWatch } from './progress.ts';

/** What a run of a whole notebook gave. */
export interface WholeRun {
  readonly report: RunReport;
  /** What became of each number in the prose. */
  readonly numbers: readonly NumberCheck[];
}

/** The text of a notebook's cells, and of those that its prose's numbers stand for. */
export const allCells = ({ cells, numbers }: Pick<OpenNotebook, 'cells' | 'numbers'>): readonly string[] =>
  withNumberCells(
    cells.map(({ text }) => text),
    numbers,
  );

/** How a notebook is run: whether its charts are drawn, and whether what shares kept is only collected. */
export type HowRun = Pick<RunRequest, 'undrawn' | 'collecting'>;

/** Runs a whole notebook, and holds the numbers of its prose against it. */
export async function runAll(notebook: OpenNotebook, how: HowRun = {}): Promise<WholeRun> {
  const { engine, cells, numbers } = notebook;
  const watch = terminalWatch();
  const report = await engine.run({ cells: allCells(notebook), wanted: 'all', ...how }, watch);
  watch.done();
  return parted(report, cells.length, numbers);
}

/** Runs a whole notebook and makes its record. */
export async function runWhole(
  notebook: OpenNotebook,
  how: HowRun = {},
): Promise<WholeRun & { readonly record: NotebookRecord }> {
  const whole = await runAll(notebook, how);
  const document = reportJson(basename(notebook.path), notebook.cells, whole.report) as unknown as RunDocument;
  return { ...whole, record: makeRecord(document, tool) };
}
