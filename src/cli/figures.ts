import { basename } from 'node:path';
import { writeFolder } from '../disk/folder.ts';
import { parsed, texts } from './args.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { keptOf } from './kept.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { sayWritten } from './written.ts';

/** `washboard figures`: every chart as a file; exit codes as of `run`. */
export async function figures(args: readonly string[]): Promise<number> {
  const given = parsed(args, { ...texts('root', 'out', 'format'), force: { type: 'boolean' } });
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length !== 1)
    return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'whose figures to write' }));
  const { out, format = 'svg', root, force = false } = values;
  if (out === undefined) return exitFor(refuse('usage.out', { what: 'figures' }));
  if (format !== 'svg') return exitFor(refuse('usage.format', { what: 'figures', given: format, known: ['svg'] }));
  const opened = openNotebook(positionals[0], root);
  if (!opened.ok) return exitFor(opened);
  const notebook = opened.value;
  const { report } = await runWhole(notebook);
  // Loaded only here: drawing would slow every other command's start.
  const { figureFiles } = await import('../files/figures.ts');
  const files = await figureFiles(report);
  const folder = { path: out, notebook: basename(notebook.path), command: 'figures', kind: 'figure' };
  const written = writeFolder(folder, files, { force, kept: keptOf(notebook, report) });
  if (!written.ok) return exitFor(written);
  sayWritten(out, files, written.value.stale);
  return report.ok ? 0 : 1;
}
