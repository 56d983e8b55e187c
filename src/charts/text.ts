import { printedUnit } from '../values/number.ts';
import type { Message, Part, TablePart } from './output.ts';
import { readingOf } from './reading.ts';
import { moreRows } from './words/tables.ts';

/** Everything as plain text: for terminals, for other viewers, for assistive technology. */

/** A table of more rows than this is told by so many of its first, as nobody reads thousands of lines. */
const [mostRows, firstRows] = [200, 100];

/** A table in columns, header and rule first; as wide as its contents. Of very many rows the first, and how many more there are. */
export function tableText(table: TablePart): string {
  const header = table.columns.map(({ name, unit }) => columnTitle(name, unit));
  const { length } = table.rows;
  const shown = length > mostRows ? table.rows.slice(0, firstRows) : table.rows;
  const lines = [header, ...shown.map((row) => row.map(oneLine))];
  const widths = header.map((_, column) => Math.max(...lines.map((line) => width(line[column] ?? ''))));
  const write = (cells: readonly string[]): string =>
    cells
      .map((cell, column) => pad(cell, widths[column], table.columns[column].align))
      .join('  ')
      .trimEnd();
  const rule = widths.map((size) => '-'.repeat(size)).join('  ');
  const caption = table.caption === '' ? [] : [table.caption];
  const more = shown.length < length ? [moreRows(length - shown.length)] : [];
  return [...caption, write(header), rule, ...lines.slice(1).map(write), ...more].join('\n');
}

export const columnTitle = (name: string, unit: string): string =>
  unit === '' ? name : `${name} (${printedUnit(unit)})`;

const oneLine = (cell: string): string => cell.replace(/\s+/g, ' ').trim();

/** Characters, not UTF-16 units, and none for combining marks. */
const width = (text: string): number => [...text.replace(/\p{M}/gu, '')].length;

function pad(cell: string, size: number, align: 'left' | 'right'): string {
  const gap = ' '.repeat(Math.max(0, size - width(cell)));
  return align === 'right' ? gap + cell : cell + gap;
}

function partText(part: Part): string {
  switch (part.type) {
    case 'chart':
      return [`[chart] ${part.title}`, part.subtitle, part.description].filter((line) => line !== '').join('\n');
    case 'table':
      return tableText(part);
    case 'text':
      return part.text;
  }
}

/** What a statement gave, without its messages. */
export const partsText = (parts: readonly Part[]): string => parts.map(partText).join('\n\n');

/** `warning gap (cell 3, line 2): the sentence`. */
export function messageText({ severity, code, message, where }: Message): string {
  return `${severity} ${code}${where === undefined ? '' : ` (${where})`}: ${message}`;
}

/** Name, parts and messages, in the order in which they are read. */
export function outputText(name: string | undefined, parts: readonly Part[], messages: readonly Message[]): string {
  const head = name === undefined || parts.length === 0 ? [] : [`${name}:`];
  const { above, answer, below, rest } = readingOf({ parts, messages });
  const messagesText = (some: readonly Message[]): string => some.map(messageText).join('\n');
  const opening = [messagesText(above), partsText(answer), messagesText(below)]
    .filter((piece) => piece !== '')
    .join('\n');
  return [...head, [opening, partsText(rest)].filter((piece) => piece !== '').join('\n\n')].join('\n');
}
