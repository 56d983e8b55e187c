import { basename } from 'node:path';
import { reportJson } from '../engine/json.ts';
import { parted, withNumberCells, type NumberCheck } from '../engine/proseNumbers.ts';
import type { RunReport } from '../engine/result.ts';
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

/**
 * Runs a whole notebook, and holds the numbers of its prose against it.
 * @param collecting given, nothing is computed of recordings, and it is told of those of which nothing is kept
 */
export async function runAll(notebook: OpenNotebook, collecting?: (path: string) => void): Promise<WholeRun> {
  const { engine, cells, numbers } = notebook;
  const watch = terminalWatch();
  const how = collecting === undefined ? {} : { collecting };
  const report = await engine.run({ cells: allCells(notebook), wanted: 'all', ...how }, watch);
  watch.done();
  return parted(report, cells.length, numbers);
}

/** Runs a whole notebook and makes its record. */
export async function runWhole(notebook: OpenNotebook): Promise<WholeRun & { readonly record: NotebookRecord }> {
  const whole = await runAll(notebook);
  const document = reportJson(basename(notebook.path), notebook.cells, whole.report) as unknown as RunDocument;
  return { ...whole, record: makeRecord(document, tool) };
}
