import type { CheckedNotebook } from '../check.ts';
import type { Occurrence } from '../work.ts';

/** The smallest piece with a meaning that holds or touches a place in a cell. */
export function occurrenceAt(notebook: CheckedNotebook, cell: number, offset: number): Occurrence | undefined {
  let best: Occurrence | undefined;
  for (const occurrence of notebook.occurrences) {
    if (occurrence.cell !== cell || occurrence.place.from > offset || occurrence.place.to < offset) continue;
    // Between two that touch, the one that begins at the caret is meant.
    if (!best || size(occurrence) < size(best) || (occurrence.place.from === offset && best.place.to === offset))
      best = occurrence;
  }
  return best;
}

const size = ({ place }: Occurrence): number => place.to - place.from;

/** The name at a place, bound or not. */
export function nameAt(
  notebook: CheckedNotebook,
  cell: number,
  offset: number,
): (Occurrence & { readonly name: string }) | undefined {
  const occurrence = occurrenceAt(notebook, cell, offset);
  return occurrence?.role === 'name' || occurrence?.role === 'definition' ? occurrence : undefined;
}
