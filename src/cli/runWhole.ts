import { basename } from 'node:path';
import { reportJson } from '../engine/json.ts';
import type { RunReport } from '../engine/result.ts';
import { makeRecord, type NotebookRecord, type RunDocument } from '../notebook/record.ts';
import { tool } from '../result/version.ts';
import type { OpenNotebook } from './notebookFile.ts';
import { terminalWatch } from './progress.ts';

/** Runs a whole notebook and makes its record. */
export async function runWhole(notebook: OpenNotebook): Promise<{ report: RunReport; record: NotebookRecord }> {
  const watch = terminalWatch();
  const report = await notebook.engine.run({ cells: notebook.cells.map(({ text }) => text), wanted: 'all' }, watch);
  watch.done();
  const document = reportJson(basename(notebook.path), notebook.cells, report) as unknown as RunDocument;
  return { report, record: makeRecord(document, tool) };
}
