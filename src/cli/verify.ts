import { existsSync, readFileSync } from 'node:fs';
import { parseRecord } from '../notebook/record.ts';
import { recordPath } from '../result/fileNames.ts';
import { parsed, projectOptions, type ProjectOptions } from './args.ts';
import { sayDifferences } from './differences.ts';
import { differingNumbers } from './differingNumbers.ts';
import { exitFor } from './exit.ts';
import { refuse } from './messages.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { print } from './terminal.ts';

/** `washboard verify`: 0 if every notebook gives what its record says; 1 with a line a difference; 2 without a record. */
export async function verify(args: readonly string[]): Promise<number> {
  const given = parsed(args, projectOptions);
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length === 0) return exitFor(refuse('usage.notebook', { article: 'a', purpose: 'to verify' }));
  let code = 0;
  for (const path of positionals) code = Math.max(code, await verifyOne(path, values));
  return code;
}

async function verifyOne(path: string, given: ProjectOptions): Promise<number> {
  const notebook = openNotebook(path, given, { isAnew: true });
  if (!notebook.ok) return exitFor(notebook);
  const file = recordPath(path);
  if (!existsSync(file)) return exitFor(refuse('record.missing', { notebook: path, record: file }));
  const recorded = parseRecord(readFileSync(file, 'utf8'));
  if (!recorded.ok) return exitFor(refuse('record.unreadable', { record: file, reason: recorded.failure.message }));
  const { record: now, numbers } = await runWhole(notebook.value, { undrawn: true });
  const code = sayDifferences(path, recorded.value, now);
  const differing = differingNumbers(notebook.value, numbers);
  differing.forEach(print);
  return differing.length > 0 ? 1 : code;
}
