import { compareRecords, writtenByAnother } from '../notebook/compareRecords.ts';
import type { NotebookRecord } from '../notebook/record.ts';
import { remark } from './exit.ts';
import { print } from './terminal.ts';

/** Prints what differs from a record, a line a difference; gives the exit code: 0 the same, 1 differs. */
export function sayDifferences(path: string, recorded: NotebookRecord, now: NotebookRecord): 0 | 1 {
  const version = writtenByAnother(recorded, now);
  if (version !== undefined) remark(version);
  const differences = compareRecords(recorded, now);
  for (const { message } of differences) print(`${path}: ${message}\n`);
  if (differences.length > 0) return 1;
  const { results, sources } = now;
  print(`${path}: the same ${Object.keys(results).length} values from the same ${sources.length} raw files\n`);
  return 0;
}
