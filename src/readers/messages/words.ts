import { counted } from '../../result/words.ts';

/** `path:line:column`, as an editor links it; line and column count from 1. */
export function location(path: string, line?: number, column?: number): string {
  return [path, line, column].filter((part) => part !== undefined).join(':');
}

/** A text of the file as a message quotes it: one line, at most 40 characters. */
export function quote(text: string): string {
  const plain = text
    .replace(/[\u0000-\u001f\u007f-\u009f]+/g, ' ')
    .replace(/"/g, "'")
    .trim();
  return `"${plain.length > 40 ? `${plain.slice(0, 39)}…` : plain}"`;
}

/** Names in double quotes. */
export const inQuotes = (names: readonly string[]): string[] => names.map((name) => `"${name}"`);

/** A figure in a sentence: five significant digits, no trailing zeros. */
export const figure = (value: number): string => String(Number(value.toPrecision(5)));

/** A unit as it is printed: a recording's has no power but a square. */
const printed = (unit: string): string => unit.replaceAll('^2', '²');

/** A unit's square as it is printed: `g²`, `(m/s²)²`. */
export const squared = (unit: string): string => (/^\p{L}+$/u.test(unit) ? `${unit}²` : `(${printed(unit)})²`);

/** A figure with its unit, which may not be known. */
export const inUnit = (value: number, unit: string | undefined): string =>
  `${figure(value)}${unit ? ` ${printed(unit)}` : ''}`;

/** A figure that was measured, to three digits, with its unit. */
export const measured = (value: number, unit: string | undefined): string => inUnit(Number(value.toPrecision(3)), unit);

/** A share in a sentence, in percent with three significant digits. */
export const percent = (share: number): string => `${Number((100 * share).toPrecision(3))} %`;

/** `once`, `3 times`. */
export const times = (count: number): string => (count === 1 ? 'once' : `${count} times`);

/** `3 rows of 200`. */
export const rowsOf = (count: number, rows: number): string => `${counted(count, 'row')} of ${rows}`;

/** A remark in brackets on the line that is meant, where it is known. */
export const atLine = (words: string, line: number | undefined): string =>
  line === undefined ? '' : ` (${words} ${line})`;
