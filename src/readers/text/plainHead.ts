import type { RowForm } from './sniff.ts';

/** Lines that a table has to have for this, and those that are enough to find its layout by, with the header. */
const [fewest, enough] = [220, 40];
/** Lines of the head that are looked at, as `readHead` takes them. */
const looked = 2000;
/** Longest cell: from 14 digits on a number may be a date and clock. */
const longestCell = 13;
/**
 * Share of the cells that have a decimal mark, above which the other mark can't be the decimal one; two cells of a row at the least, so
 * that no row of two columns could be one number with a mark between its thousands.
 */
const markedShare = 0.2;

/** Rows by whose cells it is told how many decimals a column is written with. */
export const decimalRows = 200;

const [tab, newline, carriage, quotes, comma, point, semicolon] = [9, 10, 13, 34, 44, 46, 59];

/** What may part the fields of a plain table: a semicolon or a tab rather than the comma that stands beside it. */
const delimiters = [semicolon, tab, comma];

/** What of a plain head is enough to find its layout by. */
export interface PlainHead {
  /** How many bytes of it. */
  readonly enough: number;
  /** Of each column the most digits behind the mark in its first rows, as many of them as `decimalRows`. */
  readonly decimals: readonly number[];
  /** The one way in which its rows can be parted; none of tabs, as blanks part them, too. */
  readonly form: RowForm | undefined;
}

/**
 * What is enough of a head to find its layout by, where all of it is certain to read alike: one header or
 * none, and below it nothing but rows of plain numbers, as many in each, that no other delimiter or decimal mark could
 * make a table of. Undefined where anything is otherwise; then the whole head tells.
 *
 * @param bytes the head from its first character on
 * @param isWhole whether these are all the bytes there are
 */
export function plainHead(bytes: Uint8Array, isWhole: boolean): PlainHead | undefined {
  const first = bytes.indexOf(newline);
  if (first < 0 || !mayBeHeader(bytes.subarray(0, first))) return undefined;
  const second = bytes.indexOf(newline, first + 1);
  if (second < 0) return undefined;
  const row = bytes.subarray(first + 1, second);
  const delimiter = delimiters.find((one) => row.includes(one));
  if (delimiter === undefined) return undefined;
  const decimal = delimiter !== comma && row.includes(comma) ? comma : point;
  return plainRows(bytes, first + 1, isWhole, { delimiter, decimal, columns: fieldsIn(row, delimiter) });
}

/** How plain rows are written. */
interface PlainRows {
  readonly delimiter: number;
  readonly decimal: number;
  readonly columns: number;
}

/** Holds every row of the head to the form; gives where the rows that are enough end. */
function plainRows(bytes: Uint8Array, from: number, isWhole: boolean, form: PlainRows): PlainHead | undefined {
  const decimals = new Array<number>(form.columns).fill(0);
  // Without a header the first line is a row, too.
  let rows = plainRow(bytes, 0, form, decimals) === from ? 1 : 0;
  if (rows === 0) decimals.fill(0);
  let at = from;
  let [line, end] = [2, 0];
  for (; line <= looked && at < bytes.length; line++) {
    const next = plainRow(bytes, at, form, rows++ < decimalRows ? decimals : undefined);
    if (next < 0) return undefined;
    // The last line of a head goes on beyond it; one that ends the file has to be whole.
    if (next === 0 && isWhole) return undefined;
    if (next === 0) break;
    at = next;
    if (line === enough) end = at;
  }
  if (line <= fewest) return undefined;
  return { enough: end, decimals, form: rowForm(form) };
}

const rowForm = ({ delimiter, decimal }: PlainRows): RowForm | undefined =>
  delimiter === tab ? undefined : { delimiter: String.fromCharCode(delimiter), decimal: decimal === comma ? ',' : '.' };

/**
 * The byte behind the row that begins at `from`; -1 where it is not plain, 0 where the head ends within it.
 * @param decimals takes the most digits behind the mark of each column
 */
function plainRow(
  bytes: Uint8Array,
  from: number,
  { delimiter, decimal, columns }: PlainRows,
  decimals: number[] | undefined,
): number {
  let at = from;
  let marked = 0;
  for (let k = 0; k < columns; k++) {
    const start = at;
    let c = bytes[at];
    if (c === 45) c = bytes[++at];
    let digits = 0;
    let marks = 0;
    let mark = 0;
    for (; (c >= 48 && c <= 57) || c === decimal; c = bytes[++at]) {
      if (c === decimal) {
        marks++;
        mark = at;
      } else digits++;
    }
    if (at >= bytes.length) return 0;
    if (digits === 0 || marks > 1 || at - start > longestCell) return -1;
    marked += marks;
    if (decimals !== undefined && marks > 0 && at - mark - 1 > decimals[k]) decimals[k] = at - mark - 1;
    const isLast = k === columns - 1;
    if (isLast && c === carriage && bytes[at + 1] === newline) at++;
    else if (c !== (isLast ? newline : delimiter)) return -1;
    at++;
  }
  return marked > markedShare * columns && marked > 1 ? at : -1;
}

/** Whether a line may stand above the rows as their header: no comment, nothing quoted, no statement of the delimiter. */
function mayBeHeader(line: Uint8Array): boolean {
  const isTwoLines = line.includes(carriage) && line.indexOf(carriage) < line.length - 1;
  if (isTwoLines || line.includes(quotes) || line.includes(0)) return false;
  const begin = String.fromCharCode(...line.subarray(0, 8)).trim();
  return begin !== '' && !/^(?:#|%|\/\/|!|\*|sep=)/i.test(begin);
}

function fieldsIn(row: Uint8Array, delimiter: number): number {
  let fields = 1;
  for (const c of row) if (c === delimiter) fields++;
  return fields;
}
