import type { Cursor, Plan } from './plan.ts';

const space = 32;
const tab = 9;
const newline = 10;
const carriage = 13;
const quotes = 34;
const minus = 45;

const powers = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));

/** Where the last number or field read ended: a second result without an object for each of millions of fields. */
let ended = 0;

/**
 * Reads the number that begins at `from` and sets `ended`. NaN where there is none: nothing at all if `ended` is still
 * `from`, else something that is no number. The result is the double nearest to the decimal that is spelt: with up to
 * 15 digits and 22 powers of ten it is the quotient or product of two exact doubles (Clinger 1990, "How to read
 * floating point numbers accurately"); the rest is left to `Number`.
 */
function readNumber(bytes: Uint8Array, from: number, decimal: number): number {
  let at = from;
  let c = bytes[at];
  const negative = c === minus;
  if (negative || c === 43) c = bytes[++at];
  // Up to nine digits fit a 32-bit integer, which is far quicker than a double.
  const first = at;
  let whole = 0;
  let digit = c - 48;
  while (digit >>> 0 <= 9) {
    whole = (Math.imul(whole, 10) + digit) | 0;
    digit = (c = bytes[++at]) - 48;
  }
  let digits = at - first;
  let power = 0;
  if (c === decimal) {
    const mark = at;
    digit = (c = bytes[++at]) - 48;
    while (digit >>> 0 <= 9) {
      whole = (Math.imul(whole, 10) + digit) | 0;
      digit = (c = bytes[++at]) - 48;
    }
    power = mark + 1 - at;
    digits -= power;
  }
  ended = at;
  if (digits === 0) return NaN;
  let value: number = whole;
  if (digits > 9) value = digits > 15 ? NaN : manyDigits(bytes, first, at);
  if (c === 69 || c === 101) {
    const exponent = readExponent(bytes, at);
    if (exponent === undefined) return NaN;
    power += exponent;
  }
  if (value !== value || power < -22 || power > 22) return spelled(bytes, from, ended, decimal);
  if (power < 0) value /= powers[-power];
  else if (power > 0) value *= powers[power];
  return negative ? -value : value;
}

/** The digits of bytes [from, to) as a whole number; 15 of them are exact in a double. */
function manyDigits(bytes: Uint8Array, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at++) if (bytes[at] >= 48 && bytes[at] <= 57) value = value * 10 + bytes[at] - 48;
  return value;
}

/** Reads the exponent whose E stands at `from` and sets `ended`; undefined where there is no number after it. */
function readExponent(bytes: Uint8Array, from: number): number | undefined {
  let at = from + 1;
  const negative = bytes[at] === 45;
  if (negative || bytes[at] === 43) at++;
  const first = at;
  let exponent = 0;
  for (; bytes[at] >= 48 && bytes[at] <= 57; at++) if (exponent < 10_000) exponent = exponent * 10 + bytes[at] - 48;
  ended = at;
  if (at === first) return undefined;
  return negative ? -exponent : exponent;
}

/** A number that the short way can't round rightly, spelt in bytes [from, to), by the language's own conversion. */
function spelled(bytes: Uint8Array, from: number, to: number, decimal: number): number {
  let text = '';
  for (let i = from; i < to; i++) text += bytes[i] === decimal ? '.' : String.fromCharCode(bytes[i]);
  const value = Number(text);
  return Number.isFinite(value) ? value : NaN;
}

/** Hands a field that is no number to its sink and sets `ended`; false where the sink can't take it, or it is quoted. */
function readField(
  bytes: Uint8Array,
  from: number,
  row: number,
  { delimiter, blanks, tail, sinks }: Plan,
  k: number,
): boolean {
  const stop = k === sinks.length - 1 && tail !== 0 ? tail : delimiter;
  let at = from;
  let c = bytes[at];
  while (
    c !== delimiter &&
    c !== stop &&
    c !== newline &&
    c !== carriage &&
    c !== quotes &&
    !(blanks && (c === tab || c === space))
  )
    c = bytes[++at];
  ended = at;
  let to = at;
  while (to > from && (bytes[to - 1] === space || bytes[to - 1] === tab)) to--;
  if (c === quotes) return false;
  return to > from ? sinks[k].take(bytes, from, to, row) : sinks[k].kind === 'skip';
}

/** The plan as the loop over the fields wants it: arrays for what it asks of each column. */
interface Loop extends Plan {
  readonly values: readonly Float64Array[];
  readonly numeric: readonly boolean[];
}

/** Reads a row's fields from `from` into place `row`; gives where the last ended, blanks behind it passed, or -1. */
function readRow(bytes: Uint8Array, from: number, row: number, loop: Loop): number {
  const { delimiter, blanks, decimal, values, numeric, sinks } = loop;
  const last = values.length - 1;
  // Beside a space, a tab is padding only where blanks part the fields.
  const pad = blanks ? tab : space;
  let at = from;
  let c = bytes[at];
  for (let k = 0; ; k++) {
    while (c === space || c === pad) c = bytes[++at];
    if (numeric[k]) {
      // The usual number, a few digits and a mark, is read right here: a call for each of millions costs a third.
      const start = at;
      if (c === minus) c = bytes[++at];
      const first = at;
      let whole = 0;
      let digit = c - 48;
      while (digit >>> 0 <= 9) {
        whole = (Math.imul(whole, 10) + digit) | 0;
        digit = (c = bytes[++at]) - 48;
      }
      let digits = at - first;
      let value: number = whole;
      if (c === decimal) {
        const mark = ++at;
        digit = (c = bytes[at]) - 48;
        while (digit >>> 0 <= 9) {
          whole = (Math.imul(whole, 10) + digit) | 0;
          digit = (c = bytes[++at]) - 48;
        }
        digits += at - mark;
        value = whole / powers[at - mark];
      }
      if (first !== start) value = -value;
      if (digits === 0 || digits > 9 || c === 69 || c === 101) {
        value = readNumber(bytes, start, decimal);
        // Nothing at all is an empty cell; anything else that is no number is not for this scanner.
        if (value !== value && (ended !== start || blanks)) return -1;
        if (value !== value) sinks[k].empty = true;
        c = bytes[(at = ended)];
      }
      values[k][row] = value;
    } else {
      if (!readField(bytes, at, row, loop, k)) return -1;
      c = bytes[(at = ended)];
    }
    const after = at;
    while (c === space || c === pad) c = bytes[++at];
    if (k === last) return at;
    if (c === delimiter) c = bytes[++at];
    else if (!blanks || at === after || c === newline || c === carriage) return -1;
  }
}

/** Reads rows as `scan` does, byte by byte. */
export function plainScan(bytes: Uint8Array, cursor: Cursor, end: number, capacity: number, plan: Plan): void {
  const { tail, sinks } = plan;
  const values = sinks.map((sink) => sink.values);
  const loop: Loop = { ...plan, values, numeric: sinks.map((sink) => sink.kind === 'number') };
  let { at, row, line } = cursor;
  while (at < end && row < capacity) {
    let c = bytes[at];
    if (c === newline || c === carriage) {
      at += c === carriage && bytes[at + 1] === newline ? 2 : 1;
      line++;
      continue;
    }
    let to = readRow(bytes, at, row, loop);
    if (to < 0) break;
    c = bytes[to];
    if (c === tail && tail !== 0) {
      do c = bytes[++to];
      while (c === space);
    }
    if (c === carriage && bytes[to + 1] === newline) to++;
    else if (c !== newline && c !== carriage) break;
    at = to + 1;
    row++;
    line++;
  }
  cursor.at = at;
  cursor.row = row;
  cursor.line = line;
}
