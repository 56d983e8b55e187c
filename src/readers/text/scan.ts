import type { ColumnSink } from './sink.ts';

/** What the scanner needs to know about the rows. */
export interface Plan {
  readonly delimiter: number;
  /** Whether any run of blanks parts the fields. */
  readonly blanks: boolean;
  readonly decimal: number;
  readonly trailing: boolean;
  readonly sinks: readonly ColumnSink[];
}

/** Where a scan stands: next byte, next row, and the 1-based line that holds that byte. */
export interface Cursor {
  at: number;
  row: number;
  line: number;
}

const space = 32;
const tab = 9;
const newline = 10;
const carriage = 13;

const powers = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));

/** A number that the short way can't round rightly, spelt in bytes [from, to), by the language's own conversion. */
function spelled(bytes: Uint8Array, from: number, to: number, decimal: number): number {
  let text = '';
  for (let i = from; i < to; i++) text += bytes[i] === decimal ? '.' : String.fromCharCode(bytes[i]);
  return Number(text);
}

/**
 * Reads regular rows from bytes [cursor.at, end) into the plan's sinks, and leaves the cursor at the end, or at the
 * first line that it can't read (a word where a number should be, a quote, too few fields). bytes[end - 1] must end a
 * line, and the bytes after it must be readable. An empty cell is NaN. Every other value is the double nearest to the
 * decimal that the file spells: with up to 15 digits and 22 powers of ten it is the quotient or product of two exact
 * doubles (Clinger 1990, "How to read floating point numbers accurately"); the rest is left to `Number`.
 */
export function scan(bytes: Uint8Array, cursor: Cursor, end: number, capacity: number, plan: Plan): void {
  const { delimiter, blanks, decimal, trailing, sinks } = plan;
  const last = sinks.length - 1;
  const values = sinks.map((sink) => sink.values);
  const numeric = sinks.map((sink) => sink.kind === 'number');
  let { at, row, line } = cursor;
  let regular = true;
  while (at < end && row < capacity && regular) {
    const start = at;
    let c = bytes[at];
    if (c === newline || c === carriage) {
      at += c === carriage && bytes[at + 1] === newline ? 2 : 1;
      line++;
      continue;
    }
    for (let k = 0; k <= last; k++) {
      while (c === space || (blanks && c === tab)) c = bytes[++at];
      const from = at;
      if (numeric[k]) {
        const negative = c === 45;
        if (negative || c === 43) c = bytes[++at];
        // Up to nine digits fit a 32-bit integer, which is far quicker than a double.
        let whole = 0;
        let digits = 0;
        let mark = -1;
        let digit = c - 48;
        for (; digits < 9; digit = (c = bytes[++at]) - 48) {
          if (digit >= 0 && digit <= 9) {
            whole = (Math.imul(whole, 10) + digit) | 0;
            digits++;
          } else if (c === decimal && mark < 0) mark = digits;
          else break;
        }
        let value: number = whole;
        if (digits === 9) {
          for (; ; digit = (c = bytes[++at]) - 48) {
            if (digit >= 0 && digit <= 9) {
              value = value * 10 + digit;
              digits++;
            } else if (c === decimal && mark < 0) mark = digits;
            else break;
          }
        }
        let power = mark < 0 ? 0 : mark - digits;
        if (digits === 0) {
          // Nothing at all is an empty cell; a lone sign or mark is no number.
          if (at !== from || blanks) {
            regular = false;
            break;
          }
          value = NaN;
        } else {
          if (c === 69 || c === 101) {
            let sign = (c = bytes[++at]);
            if (sign === 43 || sign === 45) c = bytes[++at];
            else sign = 43;
            let exponent = 0;
            const exponentFrom = at;
            for (; c >= 48 && c <= 57; c = bytes[++at]) if (exponent < 10000) exponent = exponent * 10 + c - 48;
            if (at === exponentFrom) {
              regular = false;
              break;
            }
            power += sign === 45 ? -exponent : exponent;
          }
          if (digits <= 15 && power >= -22 && power <= 22) {
            if (power < 0) value /= powers[-power];
            else if (power > 0) value *= powers[power];
            if (negative) value = -value;
          } else {
            value = spelled(bytes, from, at, decimal);
            if (value - value !== 0) {
              regular = false;
              break;
            }
          }
        }
        values[k][row] = value;
      } else {
        while (
          c !== delimiter &&
          c !== newline &&
          c !== carriage &&
          c !== 34 &&
          !(blanks && (c === tab || c === space))
        )
          c = bytes[++at];
        let to = at;
        while (to > from && (bytes[to - 1] === space || bytes[to - 1] === tab)) to--;
        if (c === 34 || (to > from ? !sinks[k].take(bytes, from, to, row) : sinks[k].kind !== 'skip')) {
          regular = false;
          break;
        }
      }
      const after = at;
      while (c === space || (blanks && c === tab)) c = bytes[++at];
      if (k === last) break;
      if (blanks ? at === after || c === newline || c === carriage : c !== delimiter) {
        regular = false;
        break;
      }
      if (!blanks) c = bytes[++at];
    }
    if (regular && trailing && c === delimiter) {
      c = bytes[++at];
      while (c === space) c = bytes[++at];
    }
    if (regular && c === carriage) {
      if (bytes[at + 1] === newline) at++;
      c = newline;
    }
    if (!regular || c !== newline) {
      at = start;
      regular = false;
    } else {
      at++;
      row++;
      line++;
    }
  }
  cursor.at = at;
  cursor.row = row;
  cursor.line = line;
}
