import type { ExcludedRun } from '../../values/excluded.ts';
import type { Part } from '../output.ts';

/** Runs that the run sheet leaves out, and why: said beside every result. */
export function excludedPart(...lists: readonly (readonly ExcludedRun[] | undefined)[]): Part | undefined {
  const runs = lists.flatMap((list) => list ?? []);
  if (runs.length === 0) return undefined;
  const named = runs.map(({ label, why }) => `${label} (${why === '' ? 'no reason given' : why})`);
  const sentences = [
    `Left out by the run sheet: ${named.join(', ')}.`,
    ...runs.flatMap(({ obstacle = [] }) => obstacle),
  ];
  return { type: 'text', style: 'aside', text: sentences.join(' ') };
}
