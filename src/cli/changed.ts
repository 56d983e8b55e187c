import { basename, dirname, resolve } from 'node:path';
import { commitWords, fileAt } from '../disk/revisions.ts';
import { parseRecord } from '../notebook/record.ts';
import { recordPath } from '../result/fileNames.ts';
import { parsed, projectOptions } from './args.ts';
import { sayDifferences } from './differences.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { print } from './terminal.ts';

/** `washboard changed`: the results now against the record in git at a revision; 0 the same, 1 with a line a difference, 2 without such a record. */
export async function changed(args: readonly string[]): Promise<number> {
  const given = parsed(args, projectOptions);
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  const [path, revision = 'HEAD'] = positionals;
  if (positionals.length === 0 || positionals.length > 2)
    return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'and at most one revision' }));
  const notebook = openNotebook(path, values, { isAnew: true });
  if (!notebook.ok) return exitFor(notebook);
  const file = basename(recordPath(path));
  const found = await fileAt(dirname(resolve(path)), file, revision);
  if (!found.ok) return exitFor(found);
  const { commit, text } = found.value;
  const recorded = parseRecord(text);
  if (!recorded.ok) {
    const where = `${file} at ${revision}`;
    return exitFor(refuse('record.unreadable', { record: where, reason: recorded.failure.message }));
  }
  const { record: now } = await runWhole(notebook.value, { undrawn: true });
  print(`${path}: held against ${file} at ${commitWords(commit)}\n`);
  return sayDifferences(path, recorded.value, now);
}
