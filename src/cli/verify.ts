import { existsSync, readFileSync } from 'node:fs';
import { compareRecords } from '../notebook/compareRecords.ts';
import { parseRecord, recordPath } from '../notebook/record.ts';
import { openNotebook } from './notebookFile.ts';
import { runWhole } from './runWhole.ts';
import { understandWords } from './words.ts';
import { wrong } from './wrong.ts';

/** `washboard verify`: 0 if every notebook gives what its record says; 1 with a line a difference; 2 without a record. */
export async function verify(words: readonly string[]): Promise<number> {
  const asked = understandWords(words, ['root']);
  if (typeof asked === 'string') return wrong(asked);
  if (asked.positionals.length === 0) return wrong('name a notebook to verify.');
  let code = 0;
  for (const path of asked.positionals) code = Math.max(code, await verifyOne(path, asked.values.root));
  return code;
}

async function verifyOne(path: string, root: string | undefined): Promise<number> {
  const notebook = openNotebook(path, root);
  if (typeof notebook === 'string') return wrong(notebook, false);
  const file = recordPath(path);
  if (!existsSync(file))
    return wrong(`${path} has no record ${file}: write one with "washboard record ${path}".`, false);
  const recorded = parseRecord(readFileSync(file, 'utf8'));
  if (typeof recorded === 'string') return wrong(`${file}: ${recorded}`, false);
  const { record: now } = await runWhole(notebook);
  const differences = compareRecords(recorded, now);
  if (differences.length === 0) {
    process.stdout.write(
      `${path}: the same ${Object.keys(now.results).length} values from the same ${now.sources.length} raw files\n`,
    );
    return 0;
  }
  for (const difference of differences) process.stdout.write(`${path}: ${difference.message}\n`);
  return 1;
}
