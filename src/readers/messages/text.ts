import type { Sentences } from '../../result/messages.ts';
import { counted } from '../../result/words.ts';
import { limits } from '../limits.ts';
import { figure, location, quote, rowsOf } from './words.ts';

type Decimal = '.' | ',';

interface Line {
  readonly path: string;
  readonly line: number;
  /** What stands in the line, or in the cell that is to blame. */
  readonly text: string;
}

/** One way to read a line as a row. */
interface RowReading {
  readonly columns: number;
  readonly delimiter: string;
  readonly decimal: Decimal;
}

/** Lines that share a fault, counted up to a limit. */
interface Others {
  readonly count: number;
  readonly most: number;
}

/** What a message tells of a text's lines: how they make a table, and which do not fit into it. */
export interface TextFacts {
  'not-text': { readonly path: string };
  /** Without a number it is the file's first line. */
  'line-too-long': { readonly path: string; readonly line?: number };
  delimiter: { readonly path: string; readonly delimiter: string };
  'two-tables': { readonly path: string; readonly from: number; readonly to: number };
  /** Without a line the file holds no text at all. */
  'no-table': { readonly path: string; readonly found?: { readonly why: 'comments' | 'no row' } & Omit<Line, 'path'> };
  'ambiguous-delimiter': Line & { readonly readings: readonly [RowReading, RowReading] };
  'ambiguous-decimal': Line & { readonly value: number; readonly whole: number; readonly decimal: Decimal };
  'split-decimals': Line;
  'header-mismatch': Line & { readonly fields: number; readonly columns: number; readonly isSplit: boolean };
  'header-changes': Line & { readonly isEarly: boolean };
  ragged: Line & {
    readonly fields: number;
    readonly columns: number;
    readonly others: Others;
    readonly isEarly: boolean;
  };
  'not-a-number': Line & {
    readonly column: number | undefined;
    /** Header or number of the column, where there is one. */
    readonly name: string | undefined;
    readonly isStamp: boolean;
    readonly decimal: Decimal;
    /** Whether it is a number with the other decimal mark. */
    readonly isOtherMark: boolean;
    readonly others: Others;
  };
  'remarks-below': { readonly count: number; readonly line: number; readonly text: string };
  'damaged-lines': { readonly count: number; readonly line: number; readonly text: string };
  /** Without a line they stand at the file's end. */
  'zero-bytes': { readonly line?: number };
  /** Rows whose checksum is wrong. */
  checksum: { readonly count: number; readonly rows: number; readonly line: number };
  'checksum-unknown': object;
  /** Lines that would be rows without their mark of a comment. */
  'commented-rows': { readonly count: number; readonly line: number };
  overload: { readonly count: number; readonly line: number; readonly text: string };
  'header-repeated': { readonly count: number; readonly line: number };
}

const otherMark = (decimal: Decimal): Decimal => (decimal === '.' ? ',' : '.');

const marks: Readonly<Record<string, string>> = {
  '\t': 'a tab',
  ' ': 'a space',
  ',': 'a comma',
  ';': 'a semicolon',
  '|': 'a bar',
};

/** A delimiter as `load` takes it. */
const delimiterOption = (delimiter: string): string =>
  ({ '\t': '"tab"', ' ': '"space"' })[delimiter] ?? `"${delimiter}"`;

const asReading = ({ columns, delimiter, decimal }: RowReading): string =>
  `${counted(columns, 'column')} parted by ${marks[delimiter] ?? quote(delimiter)} with decimal ${decimal === '.' ? 'points' : 'commas'}`;

const asOptions = ({ delimiter, decimal }: RowReading): string =>
  `delimiter ${delimiterOption(delimiter)} decimal "${decimal}"`;

const asDo = ({ count, most }: Others): string =>
  count >= most
    ? `, as do more than ${most} others`
    : count > 1
      ? `, as ${count === 2 ? 'does 1 other' : `do ${count - 1} others`}`
      : '';

const wasLeftOut = (count: number): string => `${count === 1 ? 'was' : 'were'} left out`;

function noTable({ path, found }: TextFacts['no-table']): string {
  if (found === undefined) return `${path}: the file holds no text, so there is nothing to read.`;
  const at = location(path, found.line);
  return found.why === 'comments'
    ? `${at}: nearly every line begins with a comment mark (${quote(found.text)}), so no rows of numbers were found: write the file without the marks, or pass over leading lines with skip.`
    : `${at}: no rows of numbers were found (${quote(found.text)} is no row of them): say how they are parted with delimiter and decimal, or pass over leading lines with skip.`;
}

function headerMismatch({ path, line, text, fields, columns, isSplit }: TextFacts['header-mismatch']): string {
  const advice = isSplit
    ? 'each number seems to be split at its decimal comma, which only another delimiter in the file can mend: write it with semicolons and load it with delimiter ";" decimal ","'
    : 'say how fields are parted with delimiter, or pass over this line with skip';
  return `${location(path, line)}: the header ${quote(text)} has ${fields} fields and the rows below it have ${columns}: ${advice}.`;
}

function ragged({ path, line, text, fields, columns, others, isEarly }: TextFacts['ragged']): string {
  const advice = isEarly
    ? `pass over the lines down to it with skip ${line} if the table begins below it`
    : 'mend or remove it';
  return `${location(path, line)}: this line has ${counted(fields, 'field')} where the others have ${columns} (${quote(text)})${asDo(others)}: ${advice}, or say how fields are parted with delimiter.`;
}

function notANumber(facts: TextFacts['not-a-number']): string {
  const { path, line, column, text, name = 'the line', decimal } = facts;
  const wanted = facts.isStamp
    ? 'a time of the form that the column has'
    : `a number (the decimal mark is "${decimal}")`;
  const other = facts.isOtherMark ? `write decimal "${otherMark(decimal)}" if that is the file's mark, or ` : '';
  return `${location(path, line, column)}: ${quote(text)} in ${name} is not ${wanted}${asDo(facts.others)}: ${other}mend or remove the line.`;
}

export const textSentences: Sentences<TextFacts> = {
  'not-text': ({ path }) =>
    `${path}: this is neither text nor another format that can be read here (WAV, Parquet, gzip of text): export the recording as CSV.`,
  'line-too-long': ({ path, line }) =>
    line === undefined
      ? `${path}: the first line is longer than ${limits.head / 1024} KiB, which no row of a recording is: check the file.`
      : `${location(path, line)}: this line is longer than ${limits.line / 1024} KiB, which no row of a recording is: check the file, or the quotes in it.`,
  delimiter: ({ path, delimiter }) =>
    `${path}: the delimiter "${delimiter}" is not one character: write one, or "tab" or "space".`,
  'two-tables': ({ path, from, to }) =>
    `${location(path, to)}: here begins a table of another form than the one from line ${from} on: cut the file in two before this line, or pass over what is above it with skip ${to - 1}.`,
  'no-table': noTable,
  'ambiguous-delimiter': ({ path, line, text, readings: [one, other] }) =>
    `${location(path, line)}: ${quote(text)} reads as ${asReading(one)} and as ${asReading(other)}: write ${asOptions(one)} or ${asOptions(other)}.`,
  'ambiguous-decimal': ({ path, line, text, value, whole, decimal }) =>
    `${location(path, line)}: ${quote(text)} reads as ${figure(value)} and as ${whole}, as does every number with a mark: write decimal "${decimal}" if the mark is a decimal mark; if it parts thousands (decimal "${otherMark(decimal)}"), write the file without them.`,
  'split-decimals': ({ path, line, text }) =>
    `${location(path, line)}: ${quote(text)} seems to have decimal commas between commas, which nothing tells apart: write the file with semicolons and load it with delimiter ";" decimal ",".`,
  'header-mismatch': headerMismatch,
  'header-changes': ({ path, line, text, isEarly }) =>
    `${location(path, line)}: from here on the columns are others than above (${quote(text)}): ${isEarly ? `pass over what is above with skip ${line - 1} if the table begins here, or ` : ''}cut the file in two before this line.`,
  ragged,
  'not-a-number': notANumber,
  'remarks-below': ({ count, line, text }) =>
    `${count === 1 ? 'The last line is no row' : `The last ${count} lines are no rows`} of the table (line ${line}: ${quote(text)}) and ${wasLeftOut(count)}.`,
  'damaged-lines': ({ count, line, text }) =>
    `${count} ${count === 1 ? 'line is no row' : 'lines are no rows'} of the table (first at line ${line}: ${quote(text)}) and ${wasLeftOut(count)}.`,
  'zero-bytes': ({ line }) =>
    `${line === undefined ? 'The file ends in' : `Line ${line} holds`} bytes that are no text, as after a loss of power; they were left out.`,
  checksum: ({ count, rows, line }) =>
    `${rowsOf(count, rows)} ${count === 1 ? 'has' : 'have'} a wrong checksum or none (first at line ${line}) and ${count === 1 ? 'counts as a lost sample' : 'count as lost samples'}.`,
  'checksum-unknown': () =>
    'Rows end with checksums that are not the exclusive or of their characters, so that they could not be held against them.',
  'commented-rows': ({ count, line }) =>
    `${counted(count, 'line begins', 'lines begin')} with a mark of a comment and would be rows without it (first at line ${line}): they were left out; write comment none to read them.`,
  overload: ({ count, line, text }) =>
    `${count} ${count === 1 ? 'reading is' : 'readings are'} beyond the sensor's range (${quote(text)}, first at line ${line}) and lost, so peak, kurtosis and dose mean nothing and the r.m.s. is too low: record again with a larger range.`,
  'header-repeated': ({ count, line }) =>
    `The header stands again within the rows, first at line ${line} (${counted(count, 'time')} in all), as where a recording was started anew.`,
};
