import { basename } from 'node:path';
import { reportJson } from '../engine/json.ts';
import { parted, withNumberCells, type JudgedNumber } from '../engine/proseNumbers.ts';
import type { RunReport } from '../engine/result.ts';
import { makeRecord, type NotebookRecord, type RunDocument } from '../notebook/record.ts';
import { tool } from '../result/version.ts';
import type { OpenNotebook } from './notebookFile.ts';
import { terminalWatch } from './progress.ts';

/** What a run of a whole notebook gave. */
export interface WholeRun {
  readonly report: RunReport;
  /** What became of each number in the prose. */
  readonly numbers: readonly JudgedNumber[];
}

/** Runs a whole notebook, and holds the numbers of its prose against it. */
export async function runAll({ engine, cells, numbers }: OpenNotebook): Promise<WholeRun> {
  const watch = terminalWatch();
  const texts = cells.map(({ text }) => text);
  const report = await engine.run({ cells: withNumberCells(texts, numbers), wanted: 'all' }, watch);
  watch.done();
  return parted(report, texts.length, numbers);
}

/** Runs a whole notebook and makes its record. */
export async function runWhole(notebook: OpenNotebook): Promise<WholeRun & { readonly record: NotebookRecord }> {
  const whole = await runAll(notebook);
  const document = reportJson(basename(notebook.path), notebook.cells, whole.report) as unknown as RunDocument;
  return { ...whole, record: makeRecord(document, tool) };
}
