import type { Cell } from '../tree.ts';

export interface Fold {
  /** 0-based lines, both inclusive. */
  readonly from: number;
  readonly to: number;
  readonly kind: 'statement' | 'comment';
}

/** Statements over several lines, and blocks of whole-line comments. */
export function foldsOf({ text, statements, comments }: Cell): readonly Fold[] {
  const starts = lineStarts(text);
  const lineAt = (offset: number): number => lastBefore(starts, offset);
  const folds: Fold[] = [];
  for (const { place } of statements) {
    const [from, to] = [lineAt(place.from), lineAt(place.to)];
    if (to > from) folds.push({ from, to, kind: 'statement' });
  }
  const whole = comments
    .map(({ from }) => lineAt(from))
    .filter((line, i) => text.slice(starts[line], comments[i].from).trim() === '');
  for (let i = 0; i < whole.length;) {
    let end = i;
    while (whole[end + 1] === whole[end] + 1) end++;
    if (end > i) folds.push({ from: whole[i], to: whole[end], kind: 'comment' });
    i = end + 1;
  }
  return folds.sort((a, b) => a.from - b.from);
}

/** Offsets at which the lines of a text begin. */
function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\n|\r/g)) starts.push(match.index + match[0].length);
  return starts;
}

/** Index of the last of rising numbers that is not above one. */
function lastBefore(rising: readonly number[], most: number): number {
  let [low, high] = [-1, rising.length - 1];
  while (low < high) {
    const middle = low + Math.ceil((high - low) / 2);
    if (rising[middle] <= most) low = middle;
    else high = middle - 1;
  }
  return low;
}
