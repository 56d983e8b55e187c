import type { Diagnostic, Place } from './diagnostic.ts';

interface Widest {
  readonly from: number;
  /** Of those that begin here or before, the one that reaches farthest, and how far the others do. */
  readonly farthest: Diagnostic;
  readonly others: number;
}

/** Tells of a message whether its place lies within that of one of `covers` other than itself, in logarithmic time. */
export function insideAnother(covers: readonly Diagnostic[]): (one: Diagnostic) => boolean {
  const widest: Widest[] = [];
  for (const cover of [...covers].sort((a, b) => a.place.from - b.place.from)) {
    const before = widest.at(-1);
    const { from, to }: Place = cover.place;
    if (before === undefined) widest.push({ from, farthest: cover, others: -1 });
    else if (to > before.farthest.place.to) widest.push({ from, farthest: cover, others: before.farthest.place.to });
    else widest.push({ from, farthest: before.farthest, others: Math.max(before.others, to) });
  }
  return (one) => {
    const last = widest.at(lastFrom(widest, one.place.from));
    if (last === undefined || last.from > one.place.from) return false;
    return (last.farthest === one ? last.others : last.farthest.place.to) >= one.place.to;
  };
}

/** Index of the last that begins at a place or before; 0 where none does. */
function lastFrom(widest: readonly Widest[], from: number): number {
  let [low, high] = [0, widest.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (widest[middle].from <= from) low = middle;
    else high = middle - 1;
  }
  return low;
}
