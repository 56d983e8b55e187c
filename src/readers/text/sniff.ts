import { success, type Refused, type Result } from '../../result/result.ts';
import { refuse } from '../messages.ts';
import { fieldsOf, isBlank, isComment } from './fields.ts';
import type { HeadLine } from './head.ts';
import { couldBeThousands, isMissing, parseNumber, type DecimalMark } from './number.ts';
import { plainStamp } from './spelt.ts';
import { isStamp } from './stampForm.ts';

export type CellKind = 'number' | 'stamp' | 'text' | 'empty';

/** One reading of the head of a file as a table. */
export interface Grid {
  readonly delimiter: string;
  readonly decimal: DecimalMark;
  readonly columns: readonly CellKind[];
  /** Whether each row ends with a delimiter that opens no column. */
  readonly trailing: boolean;
  /** A mark other than the delimiter that ends each row, or nothing. */
  readonly tail: string;
  /** Index among the head's lines of the first row. */
  readonly first: number;
  /** The cells of the rows that fit. */
  readonly rows: readonly (readonly string[])[];
}

const marks: readonly DecimalMark[] = ['.', ','];
const delimiters = ['\t', ';', '|', ',', ' '];
/** Rows that are looked at. */
const enough = 400;
/** Last lines of the head by which the columns are judged. */
const settlingRows = 200;

/** Lines that may stand above a single row; what has more is no file that ended early. */
const fewLines = 40;

/** Fewest rows that make a table. */
const fewestRows = 2;

function kindOf(cell: string, decimal: DecimalMark): CellKind {
  if (isMissing(cell)) return 'empty';
  // So many digits without a mark are a date and clock, more than a double can hold.
  if (cell.length >= 14 && /^\s*(?:19|20)\d{12}/.test(cell) && plainStamp(cell.trim()) !== undefined) return 'stamp';
  if (parseNumber(cell, decimal) !== undefined) return 'number';
  return isStamp(cell) ? 'stamp' : 'text';
}

/** Kinds of cells by one decimal mark, each looked at once: the same cells come back under every delimiter. */
type KindOf = (cell: string) => CellKind;

function remembered(decimal: DecimalMark): KindOf {
  const known = new Map<string, CellKind>();
  return (cell) => {
    let kind = known.get(cell);
    if (kind === undefined) known.set(cell, (kind = kindOf(cell, decimal)));
    return kind;
  };
}

function mostCommon(counts: readonly number[]): number {
  const tally = new Map<number, number>();
  for (const count of counts) tally.set(count, (tally.get(count) ?? 0) + 1);
  let best = 0;
  for (const [count, times] of tally) {
    const other = tally.get(best) ?? 0;
    if (times > other || (times === other && count > best)) best = count;
  }
  return best;
}

function columnKind(cells: readonly string[], kindOf: KindOf): CellKind {
  const tally = { number: 0, stamp: 0, text: 0, empty: 0 };
  for (const cell of cells) tally[kindOf(cell)]++;
  const filled = cells.length - tally.empty;
  if (filled === 0) return 'empty';
  if (tally.number >= 0.8 * filled) return 'number';
  return tally.stamp >= 0.8 * filled ? 'stamp' : 'text';
}

/** A semicolon, comma or bar at the end of every row that parts nothing. */
function tailOf(rows: readonly (readonly string[])[], delimiter: string): string {
  const later = rows.map((row) => row[row.length - 1].trim());
  const mark = later[0]?.at(-1) ?? '';
  return later[0].length > 1 && ';,|'.includes(mark) && mark !== delimiter && later.every((cell) => cell.endsWith(mark))
    ? mark
    : '';
}

/** Fields without the mark that ends the row. */
export function withoutTail(fields: readonly string[], tail: string): string[] {
  const last = (fields[fields.length - 1] ?? '').trim();
  return tail !== '' && last.endsWith(tail) ? [...fields.slice(0, -1), last.slice(0, -1)] : [...fields];
}

/** Reads the head's lines as a table with one delimiter and decimal mark, or undefined where that gives no numbers. */
export function gridOf(
  lines: readonly HeadLine[],
  delimiter: string,
  decimal: DecimalMark,
  kindOf: KindOf = remembered(decimal),
): Grid | undefined {
  const indices = lines.flatMap(({ text }, i) => (isBlank(text) || isComment(text) ? [] : [i]));
  if (indices.length === 0) return undefined;
  const fieldsAt = (i: number): string[] => fieldsOf(lines[i].text, delimiter);
  // What is above the rows may be longer than they are, so that the last lines are the surest to be rows.
  const last = indices.slice(-Math.min(settlingRows, Math.ceil(indices.length / 2))).map(fieldsAt);
  const tail = tailOf(last, delimiter);
  const later = last.map((row) => withoutTail(row, tail));
  let width = mostCommon(later.map((row) => row.length));
  const fit = later.filter((row) => row.length === width);
  if (width === 0 || fit.length === 0) return undefined;
  const trailing = delimiter !== ' ' && width > 1 && fit.every((row) => isBlank(row[width - 1]));
  if (trailing) width--;
  const kinds = Array.from({ length: width }, (_, k) =>
    columnKind(
      fit.map((row) => row[k]),
      kindOf,
    ),
  );
  if (!kinds.includes('number')) return undefined;
  const fits = (row: readonly string[]): boolean =>
    row.length >= width &&
    row.length <= width + (trailing ? 1 : 0) &&
    kinds.every((kind, k) => {
      const cell = kindOf(row[k]);
      return cell === kind || cell === 'empty' || kind === 'text' || (kind === 'empty' && cell === 'number');
    }) &&
    kinds.some((kind, k) => kind === 'number' && kindOf(row[k]) === 'number');
  const rowAt = (n: number): string[] => withoutTail(fieldsAt(indices[n]), tail);
  const known = new Map<number, boolean>();
  const fitsAt = (n: number): boolean => {
    if (n >= indices.length) return true;
    const before = known.get(n) ?? fits(rowAt(n));
    known.set(n, before);
    return before;
  };
  const start = indices.findIndex((_, n) => fitsAt(n) && fitsAt(n + 1) && fitsAt(n + 2));
  if (start < 0) return undefined;
  const looked = indices.slice(start, start + enough).map((_, n) => rowAt(start + n));
  const rows = looked.filter(fits);
  // A table is most of what follows its first row.
  if (rows.length < 0.6 * looked.length) return undefined;
  return { delimiter, decimal, columns: kinds, trailing, tail, first: indices[start], rows };
}

/**
 * The grid of lines that are known to be rows of plain numbers, all but perhaps the first, as `gridOf` gives it: no cell has
 * to be looked at but those of the first line. Undefined where a mark may end each row.
 */
function plainGrid(lines: readonly HeadLine[], { delimiter, decimal }: RowForm): Grid | undefined {
  if (decimal === ',') return undefined;
  const [top, ...rows] = lines.map(({ text }) => fieldsOf(text, delimiter));
  const [{ text }] = lines;
  const isRow =
    !isBlank(text) &&
    !isComment(text) &&
    top.length === rows[0].length &&
    top.every((cell) => ['number', 'empty'].includes(kindOf(cell, decimal))) &&
    top.some((cell) => kindOf(cell, decimal) === 'number');
  return {
    delimiter,
    decimal,
    columns: rows[0].map(() => 'number'),
    trailing: false,
    tail: '',
    first: isRow ? 0 : 1,
    rows: isRow ? [top, ...rows] : rows,
  };
}

/** Text cells that hold marks of another delimiter are a sign that the delimiter is wrong. */
function isDirty(grid: Grid): boolean {
  return grid.columns.some(
    (kind, k) =>
      kind === 'text' && grid.rows.slice(0, 20).some((row) => /\d\s*[;,\t|]\s*[-+]?\d|\d[ \t]+[-+]?\d/.test(row[k])),
  );
}

const typed = (grid: Grid): number => grid.columns.filter((kind) => kind === 'number' || kind === 'stamp').length;
const texts = (grid: Grid): number => grid.columns.filter((kind) => kind === 'text').length;

function numbersOf(grid: Grid): string {
  const rows = grid.rows.slice(0, 20);
  return rows
    .map((row) => row.filter((_, k) => grid.columns[k] === 'number').map((cell) => parseNumber(cell, grid.decimal)))
    .join(' ');
}

/** What parts the cells of rows, and what stands before their decimals. */
export type RowForm = Pick<Grid, 'delimiter' | 'decimal'>;

/** What is known of a table before its lines are looked at. */
export interface SniffOptions {
  readonly delimiter?: string | undefined;
  readonly decimal?: DecimalMark | undefined;
  /** Fields of the header under a delimiter, where a header stands above the grid; it can settle a doubt. */
  readonly headerFields: (grid: Grid) => number | undefined;
  /** The form of its rows where no other is possible, as `plainHead` has found. */
  readonly only?: RowForm | undefined;
}

/** The forms that rows may have. */
function formsOf(lines: readonly HeadLine[], { delimiter, decimal }: SniffOptions): RowForm[] {
  const isQuoted = lines.some(({ text }) => text.includes('"'));
  return (delimiter === undefined ? delimiters : [delimiter]).flatMap((delimiter) =>
    (decimal === undefined ? marks : [decimal])
      // Decimal commas between commas can be told only by quotes.
      .filter((decimal) => decimal !== delimiter || isQuoted)
      .map((decimal) => ({ delimiter, decimal })),
  );
}

/** The one reading of the head as a table; refuses a head of which there is none, or more than one. */
export function sniff(path: string, lines: readonly HeadLine[], options: SniffOptions): Result<Grid> {
  const kinds = { '.': remembered('.'), ',': remembered(',') };
  const forms = options.only === undefined ? formsOf(lines, options) : [options.only];
  const grids = forms.flatMap(({ delimiter, decimal }) => {
    const plain = options.only && plainGrid(lines, options.only);
    const grid = plain ?? gridOf(lines, delimiter, decimal, kinds[decimal]);
    return grid && grid.rows.length >= Math.min(fewestRows, lines.length) ? [grid] : [];
  });
  const order = (a: Grid, b: Grid): number =>
    Number(isDirty(a)) - Number(isDirty(b)) || typed(b) - typed(a) || texts(a) - texts(b);
  grids.sort(order);
  // Tabs part fields for sure; blanks beside them may stand within one, as between date and clock.
  const tabbed = grids.find((grid) => grid.delimiter === '\t' && grid.columns.length > 1 && !isDirty(grid));
  const blank = grids[0]?.delimiter === ' ' && tabbed && texts(tabbed) <= texts(grids[0]);
  const best = blank ? tabbed : grids.at(0);
  if (best === undefined) return noTable(path, lines);
  const header = options.headerFields(best);
  const rivals = grids.filter(
    (grid) =>
      grid !== best &&
      !isDirty(grid) &&
      texts(grid) <= texts(best) &&
      texts(grid) === 0 &&
      numbersOf(grid) !== numbersOf(best),
  );
  for (const rival of rivals) {
    const other = options.headerFields(rival);
    const fitsBest = header === best.columns.length;
    const fitsRival = other === rival.columns.length;
    if (fitsBest && !fitsRival) continue;
    return fitsRival && !fitsBest ? success(rival) : twoReadings(path, lines, best, rival);
  }
  const doubt = options.decimal === undefined ? doubtfulThousands(path, lines, best) : undefined;
  return doubt ?? success(best);
}

function twoReadings(path: string, lines: readonly HeadLine[], best: Grid, rival: Grid): Refused {
  const { line, text } = lines[Math.max(best.first, rival.first)];
  const [one, other] = [best, rival].map(({ columns, delimiter, decimal }) => ({
    columns: columns.length,
    delimiter,
    decimal,
  }));
  return refuse('ambiguous-delimiter', { path, line, text, readings: [one, other] });
}

/** `0,012, 0,981` with commas for both: every second column is whole, unsigned and begins with zeros now and then. */
export function splitDecimals(path: string, lines: readonly HeadLine[], grid: Grid): Refused | undefined {
  const { delimiter, columns, rows, first } = grid;
  if (delimiter !== ',' || columns.length % 2 === 1 || !columns.every((kind) => kind === 'number')) return undefined;
  const halves = rows.every((row) => row.every((cell, k) => (k % 2 === 1 ? /^\d+$/ : /^\s*[-+]?\d+$/).test(cell)));
  if (!halves || !rows.some((row) => row.some((cell, k) => k % 2 === 1 && /^0\d/.test(cell)))) return undefined;
  return refuse('split-decimals', { path, ...lines[first] });
}

/** A mark that always stands before exactly three digits may part thousands: both readings parse. */
function doubtfulThousands(path: string, lines: readonly HeadLine[], grid: Grid): Refused | undefined {
  if (grid.delimiter === ',') return undefined;
  const marked: string[] = [];
  for (const row of grid.rows) {
    for (const [k, cell] of row.entries()) {
      if (grid.columns[k] !== 'number') continue;
      if (cell.includes(grid.decimal)) marked.push(cell);
      else if (/[eE]/.test(cell)) return undefined;
    }
  }
  if (marked.length === 0 || !marked.every((cell) => couldBeThousands(cell, grid.decimal))) return undefined;
  const text = marked[0].trim();
  const asInteger = Number(text.split(grid.decimal).join(''));
  const value = parseNumber(text, grid.decimal);
  if (value === undefined) return undefined;
  const { line } = lines[grid.first];
  return refuse('ambiguous-decimal', { path, line, text, value, whole: asInteger, decimal: grid.decimal });
}

/** Whether a row of numbers ends a few lines of names, and none is beside it: a recording that was cut short. */
function isOneRow(lines: readonly HeadLine[]): boolean {
  const isRow = ({ text }: HeadLine): boolean =>
    /\d/.test(text) &&
    text
      .trim()
      .split(/[\t;| ]+|,(?!\d+[\t;|])/)
      .every((cell) => marks.some((mark) => kindOf(cell, mark) !== 'text'));
  return lines.length <= fewLines && lines.filter(isRow).length === 1 && isRow(lines[lines.length - 1]);
}

function noTable(path: string, lines: readonly HeadLine[]): Refused {
  const filled = lines.filter(({ text }) => !isBlank(text));
  if (filled.length === 0) return refuse('no-table', { path });
  if (filled.filter(({ text }) => isComment(text)).length > 0.9 * filled.length)
    return refuse('no-table', { path, found: { why: 'comments', ...filled[0] } });
  if (isOneRow(filled)) return refuse('too-short', { path, rows: 1 });
  const example = filled.find(({ text }) => /\d/.test(text) && !isComment(text)) ?? filled[filled.length - 1];
  return refuse('no-table', { path, found: { why: 'no row', ...example } });
}
