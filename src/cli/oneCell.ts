import type { RunReport, RunRequest } from '../engine/result.ts';
import { success, type Result } from '../result/result.ts';
import { refuse } from './messages.ts';
import type { OpenNotebook } from './notebookFile.ts';
import { terminalWatch } from './progress.ts';

/**
 * Which cell `--cell` names, counted from 0; undefined where it is not given.
 * @param given as it stands on the command line, where cells are counted from 1
 */
export function cellIn({ path, cells }: OpenNotebook, given: string | undefined): Result<number | undefined> {
  if (given === undefined) return success(undefined);
  if (!/^\d+$/.test(given)) return refuse('usage.cell', { given });
  const cell = Number(given);
  if (cell < 1 || cell > cells.length) return refuse('notebook.cell', { path, cells: cells.length, cell });
  return success(cell - 1);
}

/** Runs one cell and what it needs. */
export async function runCell(
  { engine, cells }: OpenNotebook,
  cell: number,
  how: Pick<RunRequest, 'undrawn'> = {},
): Promise<RunReport> {
  const watch = terminalWatch();
  const report = await engine.run({ cells: cells.map(({ text }) => text), wanted: [cell], ...how }, watch);
  watch.done();
  return report;
}
