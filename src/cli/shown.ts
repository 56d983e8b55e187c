import type { Output } from '../charts/output.ts';
import type { RunReport } from '../engine/result.ts';
import { show } from '../engine/show.ts';

/** What each cell shows, by index of the cell. */
export function shownByCell({ results }: RunReport): ReadonlyMap<number, readonly Output[]> {
  const shown = new Map<number, Output[]>();
  for (const result of results) {
    const output = show(result);
    const before = shown.get(result.cell);
    if (output !== undefined && before === undefined) shown.set(result.cell, [output]);
    else if (output !== undefined) before?.push(output);
  }
  return shown;
}
