import { basename } from 'node:path';
import { writeFolder } from '../disk/folder.ts';
import { tableFiles, tableFormats } from '../files/tables.ts';
import { parsed, projectOptions, texts } from './args.ts';
import { exitFor } from './exit.ts';
import { keptOf } from './kept.ts';
import { refuse } from './messages.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { sayWritten } from './written.ts';

/** `washboard tables`: every table as a file, one a result; exit codes as of `run`. */
export async function tables(args: readonly string[]): Promise<number> {
  const given = parsed(args, { ...projectOptions, ...texts('out', 'format'), force: { type: 'boolean' } });
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length !== 1)
    return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'whose tables to write' }));
  const { out, force = false } = values;
  if (out === undefined) return exitFor(refuse('usage.out', { what: 'tables' }));
  const format = tableFormats.find((one) => one === (values.format ?? 'csv'));
  if (format === undefined)
    return exitFor(refuse('usage.format', { what: 'tables', given: values.format ?? '', known: tableFormats }));
  const opened = openNotebook(positionals[0], values);
  if (!opened.ok) return exitFor(opened);
  const notebook = opened.value;
  const { report } = await runWhole(notebook, { undrawn: true });
  const files = await tableFiles(report, format);
  const folder = { path: out, notebook: basename(notebook.path), command: 'tables', kind: 'table' };
  const written = writeFolder(folder, files, { force, kept: keptOf(notebook, report) });
  if (!written.ok) return exitFor(written);
  sayWritten(out, files, written.value.stale);
  return report.ok ? 0 : 1;
}
