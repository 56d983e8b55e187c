import type { ExcludedRun } from '../../values/excluded.ts';
import type { Part } from '../output.ts';
import { excludedWords } from '../words/plan.ts';

/** Runs that the run sheet leaves out, and why: said beside every result. */
export function excludedPart(...lists: readonly (readonly ExcludedRun[] | undefined)[]): Part | undefined {
  const runs = lists.flatMap((list) => list ?? []);
  return runs.length === 0 ? undefined : { type: 'text', style: 'aside', text: excludedWords(runs) };
}
