import type { CheckedNotebook } from '../check.ts';
import type { Mention } from '../work.ts';

/** The smallest piece with a meaning that holds or touches a place in a cell. */
export function mentionAt(notebook: CheckedNotebook, cell: number, offset: number): Mention | undefined {
  let best: Mention | undefined;
  for (const mention of notebook.mentions) {
    if (mention.cell !== cell || mention.place.from > offset || mention.place.to < offset) continue;
    // Between two that touch, the one that begins at the caret is meant.
    if (!best || size(mention) < size(best) || (mention.place.from === offset && best.place.to === offset))
      best = mention;
  }
  return best;
}

const size = ({ place }: Mention): number => place.to - place.from;

/** The name at a place, bound or not. */
export function nameAt(
  notebook: CheckedNotebook,
  cell: number,
  offset: number,
): (Mention & { readonly name: string }) | undefined {
  const mention = mentionAt(notebook, cell, offset);
  return mention?.role === 'name' || mention?.role === 'definition' ? mention : undefined;
}
