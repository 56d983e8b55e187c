import { writeFileSync } from 'node:fs';
import { recordPath, recordText } from '../notebook/record.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { understandWords } from './words.ts';
import { wrong } from './wrong.ts';

/** `washboard record`: runs the notebook and writes its record beside it; exit codes as of `run`. */
export async function record(words: readonly string[]): Promise<number> {
  const asked = understandWords(words, ['root']);
  if (typeof asked === 'string') return wrong(asked);
  const { positionals, values } = asked;
  if (positionals.length !== 1) return wrong('name one notebook to record.');
  const notebook = openNotebook(positionals[0], values.root);
  if (typeof notebook === 'string') return wrong(notebook, false);
  const { report, record: made } = await runWhole(notebook);
  const path = recordPath(notebook.path);
  writeFileSync(path, recordText(made));
  process.stdout.write(`${path}: ${Object.keys(made.results).length} values of ${made.sources.length} raw files\n`);
  for (const { error, cell, line } of report.results) {
    if (error !== undefined)
      process.stderr.write(`${notebook.path}:${notebook.cells[cell].line + line - 1}: ${error.message}\n`);
  }
  return report.ok ? 0 : 1;
}
