import type { ExcludedRun } from '../../values/excluded.ts';
import type { Part } from '../output.ts';

/** Runs that the run sheet leaves out, and why: said beside every result. */
export function excludedPart(...lists: readonly (readonly ExcludedRun[] | undefined)[]): Part | undefined {
  const runs = lists.flatMap((list) => list ?? []);
  if (runs.length === 0) return undefined;
  const named = runs.map(({ label, why, obstacle: hindered }) => {
    const reason = why === '' ? 'no reason given' : why;
    return `${label} (${reason}${hindered === undefined ? '' : `; ${hindered}`})`;
  });
  return { type: 'text', style: 'aside', text: `Left out by the run sheet: ${named.join(', ')}.` };
}
