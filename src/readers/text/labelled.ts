import { isStamp } from './stampForm.ts';
import type { HeadLine } from './sniff.ts';

/** Lines in which words stand between the numbers, always the same: `12:00:01.250 -> X,Y,Z= -1.84,2.93,-9.22`. */
export interface Labelled {
  /** Names of the columns, where the words tell them. */
  readonly names: readonly string[];
  /** A line's values with tabs between, or undefined where the line is not of this form. */
  readonly fields: (line: string) => string | undefined;
}

const token = /(?:\d{4}-\d{2}-\d{2}[T ])?\d{1,2}:\d{2}:\d{2}(?:[.:,]\d+)?|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g;

/** Labelled lines are short. */
const longest = 1000;

interface Split {
  readonly words: readonly string[];
  readonly values: readonly string[];
}

function split(line: string): Split {
  const words: string[] = [];
  const values: string[] = [];
  let at = 0;
  for (const match of line.matchAll(token)) {
    // A digit that ends a word (`X1`) belongs to the word.
    const before = line[match.index - 1];
    if (before !== undefined && /[\p{L}_]/u.test(before)) continue;
    words.push(line.slice(at, match.index));
    values.push(match[0]);
    at = match.index + match[0].length;
  }
  words.push(line.slice(at));
  return { words, values };
}

const skeleton = ({ words }: Split): string => words.map((word) => word.replace(/\s+/g, ' ').trim()).join('\u0000');

/** Finds the form of labelled lines in the head, or undefined where there is none. */
export function findLabelled(
  lines: readonly HeadLine[],
): { readonly labelled: Labelled; readonly first: number } | undefined {
  if (lines.some(({ text }) => text.length > longest)) return undefined;
  const shapes = lines.map(({ text }) => split(text));
  const tally = new Map<string, number>();
  for (const shape of shapes) {
    if (shape.values.length > 0) tally.set(skeleton(shape), (tally.get(skeleton(shape)) ?? 0) + 1);
  }
  const [common, count] = [...tally].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  if (count < 2 || count < 0.5 * lines.length || !/\p{L}/u.test(common)) return undefined;
  const first = shapes.findIndex((shape) => skeleton(shape) === common);
  const fields = (line: string): string | undefined => {
    const shape = split(line);
    return skeleton(shape) === common ? shape.values.join('\t') : undefined;
  };
  return { labelled: { names: namesOf(shapes[first]), fields }, first };
}

/** Names before the numbers: one before each (`x: 1 y: 2`), or a list before the first of them (`X,Y,Z= 1,2,3`). */
function namesOf({ words, values }: Split): string[] {
  const names = values.map(() => '');
  for (const [i, word] of words.slice(0, values.length).entries()) {
    const listed = word
      .replace(/[=:>\s-]+$/u, '')
      .split(/[,;/| ]+/)
      .filter((part) => /\p{L}/u.test(part));
    if (isStamp(values[i])) names[i] = 'time';
    else if (listed.length === 1 || values.length - i < listed.length) names[i] = listed[listed.length - 1] ?? '';
    else if (listed.length > 1) for (const [j, name] of listed.entries()) names[i + j] ||= name;
  }
  return names;
}
