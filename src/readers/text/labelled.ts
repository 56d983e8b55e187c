import { timeScale } from '../timeNames.ts';
import { unitSymbol } from '../units.ts';
import type { DecimalMark } from './number.ts';
import { isStamp } from './stampForm.ts';
import type { HeadLine } from './head.ts';

/** Lines in which words or brackets stand around the numbers, always the same: `12:00:01.250 -> X,Y,Z= -1.84,2.93,-9.22`. */
export interface Labelled {
  /** Names of the columns, where the words tell them. */
  readonly names: readonly string[];
  /** Units that stand behind the numbers, empty where there is none. */
  readonly units: readonly string[];
  readonly decimal: DecimalMark;
  /** A line's values with tabs between, or undefined where the line is not of this form. */
  readonly fields: (line: string) => string | undefined;
}

const stampToken = String.raw`(?:(?:\d{4}[-/.]\d{1,2}[-/.]\d{1,2}|\d{1,2}[-/.]\d{1,2}[-/.]\d{2,4})[T ])?\d{1,2}:\d{2}:\d{2}(?:[.:,]\d+)?`;
const tokens: Readonly<Record<DecimalMark, RegExp>> = {
  '.': new RegExp(`${stampToken}|[-+]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][-+]?\\d+)?`, 'g'),
  ',': new RegExp(`${stampToken}|[-+]?(?:\\d+,?\\d*|,\\d+)(?:[eE][-+]?\\d+)?`, 'g'),
};

/** Labelled lines are short. */
const longest = 1000;

interface Split {
  readonly words: readonly string[];
  readonly values: readonly string[];
}

function split(line: string, decimal: DecimalMark): Split {
  const words: string[] = [];
  const values: string[] = [];
  let at = 0;
  for (const match of line.matchAll(tokens[decimal])) {
    // A digit that ends a word (`X1`) belongs to the word.
    if (/[\p{L}_]/u.test(line.charAt(match.index - 1))) continue;
    words.push(line.slice(at, match.index));
    values.push(match[0]);
    at = match.index + match[0].length;
  }
  words.push(line.slice(at));
  return { words, values };
}

/** What is the same in all lines; a list of them in brackets begins and ends otherwise. */
function skeleton({ words }: Split): string {
  const last = words.length - 1;
  const inner = words.map((word, i) => {
    const open = i === 0 ? word.replace(/^[\s[({,]+/, '') : word;
    return i === last ? open.replace(/[\s\])},;]+$/, '') : open;
  });
  return inner.map((word) => word.replace(/\s+/g, ' ').trim()).join('\u0000');
}

/** Whether `X=0,12 Y=0,34` has commas within its numbers: after each word one, and points nowhere. */
function hasDecimalCommas({ words, values }: Split): boolean {
  if (values.some((value) => value.includes('.') && !isStamp(value))) return false;
  const commas = words.filter((word) => word === ',').length;
  return commas > 0 && words.every((word, i) => word !== ',' || (/\p{L}/u.test(words[i - 1]) && words[i + 1] !== ','));
}

/** Finds the form of labelled lines in the head, or undefined where there is none. */
export function findLabelled(lines: readonly HeadLine[], decimal?: DecimalMark): Labelled | undefined {
  if (lines.some(({ text }) => text.length > longest)) return undefined;
  const found = commonForm(lines, decimal ?? '.');
  if (found === undefined || decimal !== undefined || !hasDecimalCommas(found.shape)) return found?.labelled;
  return commonForm(lines, ',')?.labelled;
}

function commonForm(
  lines: readonly HeadLine[],
  decimal: DecimalMark,
): { readonly labelled: Labelled; readonly shape: Split } | undefined {
  const shapes = lines.map(({ text }) => split(text, decimal));
  const tally = new Map<string, number>();
  for (const shape of shapes) {
    if (shape.values.length > 0) tally.set(skeleton(shape), (tally.get(skeleton(shape)) ?? 0) + 1);
  }
  const [common, count] = [...tally].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  const shape = shapes.find((one) => one.values.length > 0 && skeleton(one) === common);
  if (!shape || count < 2 || count < 0.5 * lines.length || !/[\p{L}[\](){}']/u.test(shape.words.join('')))
    return undefined;
  const fields = (line: string): string | undefined => {
    const one = split(line, decimal);
    return skeleton(one) === common ? one.values.join('\t') : undefined;
  };
  return { labelled: { names: namesOf(shape), units: unitsOf(shape), decimal, fields }, shape };
}

const partsOf = (word: string): string[] =>
  word
    .split(/[,;/| ]+/)
    .map((part) => part.replace(/^[^\p{L}\d]+|[^\p{L}\d)\]]+$/gu, ''))
    .filter((part) => /\p{L}/u.test(part));

/** Names before the numbers: one before each (`x: 1 y: 2`), or a list before the first of them (`X,Y,Z= 1,2,3`). */
function namesOf({ words, values }: Split): string[] {
  const names = values.map(() => '');
  for (const [i, word] of words.slice(0, values.length).entries()) {
    const listed = i > 0 && unitIn(word) !== '' ? partsOf(word).slice(1) : partsOf(word);
    const isList = listed.length > 1 && listed.length <= values.length - i && !/\p{L}/u.test(words[i + 1]);
    if (isStamp(values[i])) names[i] = 'time';
    else if (isList) for (const [j, name] of listed.entries()) names[i + j] ||= name;
    else if (listed.length > 0) names[i] = listed[listed.length - 1];
  }
  return names;
}

const unitsOf = ({ words, values }: Split): string[] => values.map((_, i) => unitIn(words[i + 1]));

/** The unit that a word behind a number begins with, as in `0.98 g, `. */
function unitIn(word: string): string {
  const text = /^\s?([^\s,;|=:]{1,12})(?=[\s,;|]|$)/.exec(word)?.[1] ?? '';
  return unitSymbol(text) !== undefined || timeScale(text) !== undefined ? text : '';
}
