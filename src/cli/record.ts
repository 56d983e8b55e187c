import { writeProduct } from '../disk/writing.ts';
import { parseRecord, recordText } from '../notebook/record.ts';
import { recordPath } from '../result/fileNames.ts';
import { parsed, projectOptions } from './args.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { keptOf } from './kept.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { complain, print } from './terminal.ts';

/** `washboard record`: runs the notebook and writes its record beside it; exit codes as of `run`. */
export async function record(args: readonly string[]): Promise<number> {
  const given = parsed(args, { ...projectOptions, force: { type: 'boolean' } });
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length !== 1) return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'to record' }));
  const opened = openNotebook(positionals[0], values, { isAnew: true });
  if (!opened.ok) return exitFor(opened);
  const notebook = opened.value;
  const { report, record: made } = await runWhole(notebook, { undrawn: true });
  const path = recordPath(notebook.path);
  const written = writeProduct(
    { path, content: recordText(made), kind: 'record', isOurs: (found) => parseRecord(found.toString()).ok },
    { force: values.force ?? false, kept: keptOf(notebook, report).filter(({ as }) => as !== 'record') },
  );
  if (!written.ok) return exitFor(written);
  print(`${path}: ${Object.keys(made.results).length} values of ${made.sources.length} raw files\n`);
  for (const { error, cell, line } of report.results) {
    if (error !== undefined) complain(`${notebook.path}:${notebook.cells[cell].line + line - 1}: ${error.message}\n`);
  }
  return report.ok ? 0 : 1;
}
