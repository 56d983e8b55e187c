// Reader of regular rows in AssemblyScript, for processors with vectors of 16 bytes: a number of up to 15 characters takes
// one load, one look at which of its bytes are no digits, one shuffle that drops the decimal mark and moves the digits to
// the right, two sums of products, and one division. It takes what src/readers/text/plainScan.ts takes, with the same
// bits, and stops at the beginning of a row that it is not sure of. Built by scripts/wasm/build.mjs into
// src/readers/text/scanKernel.ts; src/readers/text/scanVectors.ts fills the tables and is the only caller.

/**
 * Shuffles by (end * 16 + mark) * 32, where `mark` is `end` for a number without a mark: the mark first, the digits to the right. Behind each
 * stands which of its bytes are to be a mark; no number is told by one that never is.
 */
export const shuffles: usize = 0;
/** 1, by which a number without a mark is divided, and behind it the powers of ten from 0 to 22. */
export const unmarked: usize = 8192;
/** Powers of ten from 0 to 22. */
export const powers: usize = 8200;
/** Powers of five from -55 to 40, 128 bits each, the upper half first (Lemire 2021, "Number parsing at a gigabyte per second"). */
export const fives: usize = 8448;
/**
 * Where what follows stands for this thread, beyond the places that are told, so that two threads can work in one memory: tables
 * are read by both.
 */
let own: usize = 0;

export function workAt(place: usize): void {
  own = place;
}

/** Words: the byte where the reading stopped, and how many blank lines were passed. */
export const state: usize = 10240;
/**
 * How the stamps of a column stand there that is of kind 3: what the last one began with, up to its minutes (16 bytes); that
 * day's seconds (a double) and its minutes in s; the day of second 0 from 1970; what ends each, as bytes and as a mask
 * over them; how many bytes that is; whether there is a date; the offset from UTC in s (a double).
 */
export const stamps: usize = 10256;
/** A byte a column: 0 for numbers, 1 for what is passed over, 2 for texts, of which the place is told, 3 for stamps. */
export const kinds: usize = 10496;
/** A byte a column: whether some cell was empty. */
export const empties: usize = 14592;
/** Bytes to read, with 16 zeros behind them. */
export const input: usize = 20480;
/** Where the thread by itself has the columns that are read. */
export const output: usize = 86528;

/** Rows one after another that are no plain ones, from which on no more are tried in the call. */
const mostOdd: i32 = 8;

/** Where the last number of the long way or the last plain row ended, or 0 where there was none. */
let ended: usize = 0;

/** Sixteen right-aligned digits of a number that is known to be one. */
@inline function digitsBy(shuffle: usize, digits: v128): v128 {
  return v128.and(i8x16.swizzle(digits, v128.load(shuffles + (shuffle << 5))), i32x4(-256, -1, -1, -1));
}

/** Eight digits each as the two words of the result, from 16 right-aligned digits. */
@inline function eights(digits: v128): u64 {
  const fours = foursOf(digits);
  const narrow = i16x8.narrow_i32x4_s(fours, fours);
  return i64x2.extract_lane(i32x4.dot_i16x8_s(narrow, i16x8(10000, 1, 10000, 1, 10000, 1, 10000, 1)), 0);
}

/**
 * Reads rows from the byte at `from` until `rows` of them are read, or to the first that it can't take. Gives the
 * number of rows, and leaves in `state` where it stopped. At `target` it puts one column after another, `stride` bytes apart: a double a
 * row, or where the text begins and ends.
 */
export function readRows(from: usize, target: usize, rows: i32, columns: i32, stride: usize, delimiter: i32, decimal: i32, blanks: i32, tail: i32): i32 {
  // Beside a space, a tab is padding only where blanks part the fields.
  const pad = blanks ? 9 : 32;
  const last = columns - 1;
  let row = 0;
  let start = from;
  let blankLines = 0;
  let odd = blanks || tail != 0 || delimiter == 43 || delimiter == 45 || !areNumbers(columns) ? mostOdd : 0;
  for (; row < rows; row++) {
    let c = <i32>load<u8>(start);
    while (c == 10 || (c == 13 && load<u8>(start + 1) == 10)) {
      start += c == 13 ? 2 : 1;
      c = load<u8>(start);
      blankLines++;
    }
    if (c == 13) break;
    if (odd < mostOdd) {
      const taken = plainRows(start, target + (<usize>row << 3), rows - row, columns, stride, delimiter, decimal);
      if (taken > 0) {
        start = ended;
        odd = 0;
        row += taken - 1;
        continue;
      }
      odd++;
    }
    let at = start;
    let to = target + (<usize>row << 3);
    let isEmpty = false;
    let k = 0;
    for (; ; k++, to += stride) {
      c = load<u8>(at);
      while (c == 32 || c == pad) c = load<u8>(++at);
      const kind = load<u8>(own + kinds + k);
      if (kind == 0) {
        const negative = c == 45;
        const signed = negative || c == 43;
        at += <usize>signed;
        const begin = at;
        const digits = i8x16.sub(v128.load(at), i8x16.splat(48));
        // A bit for each byte that is no digit, and one behind them.
        let others = i8x16.bitmask(i8x16.gt_u(digits, i8x16.splat(9))) | 0x10000;
        const mark = ctz(others);
        let end = mark;
        if (load<u8>(at + mark) == decimal) {
          others &= others - 1;
          end = others == 0 ? 16 : ctz(others);
        }
        const marked = <i32>(mark < end);
        if (end < 16 && end > marked) {
          const both = eights(digitsBy(end << 4 | mark, digits));
          let value = <f64><i64>((both & 0xffffffff) * 100000000 + (both >> 32));
          let power = end - mark - marked;
          c = load<u8>(at + end);
          at += end;
          if ((c | 32) == 101) {
            power -= exponentAt(at + 1);
            if (ended == 0) break;
            at = ended;
            c = load<u8>(at);
            if (power > 22 || power < -22) {
              value = longNumber(begin, decimal);
              if (ended == 0) break;
              power = 0;
            }
          }
          // Quotient or product of two exact doubles (Clinger 1990).
          value = power >= 0 ? value / load<f64>(powers + (power << 3)) : value * load<f64>(powers - (power << 3));
          store<f64>(to, negative ? -value : value);
        } else if (end == 0 && !signed && !blanks && c != 0) {
          // Nothing at all is an empty cell, but for the zeros behind the bytes, before which a row may be cut.
          store<f64>(to, NaN);
          isEmpty = true;
          c = load<u8>(at);
        } else {
          const value = longNumber(at, decimal);
          if (ended == 0) break;
          store<f64>(to, negative ? -value : value);
          at = ended;
          c = load<u8>(at);
        }
      } else if (kind == 3) {
        const seconds = stampAt(at, delimiter, tail);
        if (ended == 0) break;
        store<f64>(to, seconds);
        at = ended;
        c = load<u8>(at);
      } else {
        const first = at;
        at = textEnd(at, delimiter, k == last && tail != 0 ? tail : delimiter, blanks ? 9 : delimiter);
        c = load<u8>(at);
        if (c == 34 || c == 0) break;
        if (kind == 2) {
          let behind = at;
          while (behind > first && (load<u8>(behind - 1) == 32 || load<u8>(behind - 1) == 9)) behind--;
          if (behind == first) break;
          store<i32>(to, <i32>first);
          store<i32>(to, <i32>behind, 4);
        }
      }
      if (k == last) {
        k = columns;
        break;
      }
      if (c == delimiter && !blanks) at++;
      else {
        const after = at;
        while (c == 32 || c == pad) c = load<u8>(++at);
        if (c == delimiter) at++;
        else if (!blanks || at == after || c == 10 || c == 13) break;
      }
    }
    if (k != columns) break;
    while (c == 32 || c == pad) c = load<u8>(++at);
    if (c == tail && tail != 0) {
      do c = load<u8>(++at); while (c == 32);
    }
    // A return alone may be half of a line's end, of which the rest is not here yet.
    if (c == 13) c = load<u8>(++at);
    if (c != 10) break;
    start = at + 1;
    if (isEmpty) noteEmpties(target + (<usize>row << 3), columns, stride);
  }
  store<i32>(own + state, <i32>start);
  store<i32>(own + state, blankLines, 4);
  return row;
}

/** Whether all columns are of numbers, passed-over cells aside. */
function areNumbers(columns: i32): bool {
  for (let k = 0; k < columns; k++) if (load<u8>(own + kinds + k) != 0) return false;
  return true;
}

/** A bit for each of the 64 bytes at `at` that parts fields or ends a line. */
@inline function marksAt(at: usize, delimiters: v128, ends: v128): u64 {
  const a = v128.load(at);
  const b = v128.load(at, 16);
  const c = v128.load(at, 32);
  const d = v128.load(at, 48);
  return <u64><u32>(i8x16.bitmask(v128.or(i8x16.eq(a, delimiters), i8x16.eq(a, ends)))
      | i8x16.bitmask(v128.or(i8x16.eq(b, delimiters), i8x16.eq(b, ends))) << 16)
    | <u64><u32>(i8x16.bitmask(v128.or(i8x16.eq(c, delimiters), i8x16.eq(c, ends)))
      | i8x16.bitmask(v128.or(i8x16.eq(d, delimiters), i8x16.eq(d, ends))) << 16) << 32;
}

/** Where the number at `at` has its mark, or else what ends it, which is no digit either. */
@inline function markOf(digits: v128): usize {
  return <usize>ctz(i8x16.bitmask(i8x16.add_sat_u(digits, i8x16.splat(118))));
}

/** Sixteen right-aligned digits of a number without its mark; `beyondDigits` tells whether it is one. */
@inline function alignedBy(length: usize, mark: usize, digits: v128, decimals: v128): v128 {
  const entry = shuffles + ((length << 4 | mark) << 5);
  return v128.xor(i8x16.swizzle(digits, v128.load(entry)), v128.and(v128.load(entry, 16), decimals));
}

/** Which of the bytes of aligned digits make them no number: the first is what a mark is off the decimal one. */
@inline function beyondDigits(aligned: v128): v128 {
  return i8x16.sub_sat_u(aligned, i8x16(0, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9, 9));
}

/** Four digits each as the four words of the result, from 16 right-aligned digits. */
@inline function foursOf(digits: v128): v128 {
  const pairs = i16x8.shr_u(i16x8.mul(digits, i16x8.splat(2561)), 8);
  return i32x4.dot_i16x8_s(pairs, i16x8(100, 1, 100, 1, 100, 1, 100, 1));
}

/** Two numbers, each of the four words of `foursOf`. */
@inline function twoOf(one: v128, other: v128): v128 {
  const eights = i32x4.dot_i16x8_s(i16x8.narrow_i32x4_s(one, other), i16x8(10000, 1, 10000, 1, 10000, 1, 10000, 1));
  const upper = f64x2.convert_low_i32x4_s(v128.shuffle<i32>(eights, eights, 0, 2, 0, 2));
  const lower = f64x2.convert_low_i32x4_s(v128.shuffle<i32>(eights, eights, 1, 3, 1, 3));
  return f64x2.add(f64x2.mul(upper, f64x2.splat(100000000)), lower);
}

/** The first byte from `at` on that is no blank. */
@inline function behindBlanks(at: usize): usize {
  while (load<u8>(at) == 32) at++;
  return at;
}

/** The sign of a double, by what a number begins with: a choice between it and its negative is a jump that nobody foresees. */
@inline function signBy(c: i32): u64 {
  return <u64>(c == 45) << 63;
}

/** Whether there is a sign, as a number of bytes. */
@inline function signed(c: i32): usize {
  return <usize>(<i32>(c == 45) | <i32>(c == 43));
}

/**
 * Reads rows in which all is numbers of 1 to 15 characters beside their sign, with nothing but blanks before them, up to the first that is
 * another; gives how many, and sets `ended`. A function of its own, so that a host compiles it soon. Where the fields end is known for 64 bytes
 * at once, two numbers are made together, and whether all of a row were such is looked at once, so that a processor reads several at a time.
 */
function plainRows(start: usize, target: usize, rows: i32, columns: i32, stride: usize, delimiter: i32, decimal: i32): i32 {
  const delimiters = i8x16.splat(<i8>delimiter);
  const ends = i8x16.splat(10);
  const decimals = i8x16.splat(<i8>(decimal - 48));
  let row = 0;
  for (; row < rows; row++, target += 8) {
    let base = start;
    let marks = marksAt(base, delimiters, ends);
    let at = start;
    let to = target;
    let left = columns;
    let faults = i8x16.splat(0);
    let lengths: usize = 0;
    for (;; to += stride << 1) {
      if (marks == 0) {
        base = at;
        marks = marksAt(base, delimiters, ends);
        if (marks == 0) break;
      }
      let next = base + <usize>ctz(marks);
      marks &= marks - 1;
      at = behindBlanks(at);
      let c = <i32>load<u8>(at);
      const sign = signBy(c);
      at += signed(c);
      let length = next - at;
      if (left == 1) {
        if (load<u8>(next) != 10) break;
        length -= <usize>(load<u8>(next - 1) == 13);
      } else if (load<u8>(next) != delimiter) break;
      let digits = i8x16.sub(v128.load(at), i8x16.splat(48));
      let mark = markOf(digits);
      const one = alignedBy(length, mark, digits, decimals);
      const divisor = unmarked + ((length - mark) << 3);
      lengths |= length;
      at = next + 1;
      if (left == 1) {
        faults = v128.or(faults, beyondDigits(one));
        const value = f64x2.div(twoOf(foursOf(one), foursOf(one)), v128.load64_zero(divisor));
        store<u64>(to, i64x2.extract_lane(value, 0) | sign);
        left = 0;
        break;
      }
      if (marks == 0) {
        base = at;
        marks = marksAt(base, delimiters, ends);
        if (marks == 0) break;
      }
      next = base + <usize>ctz(marks);
      marks &= marks - 1;
      at = behindBlanks(at);
      c = <i32>load<u8>(at);
      const otherSign = signBy(c);
      at += signed(c);
      length = next - at;
      if (left == 2) {
        if (load<u8>(next) != 10) break;
        length -= <usize>(load<u8>(next - 1) == 13);
      } else if (load<u8>(next) != delimiter) break;
      digits = i8x16.sub(v128.load(at), i8x16.splat(48));
      mark = markOf(digits);
      const other = alignedBy(length, mark, digits, decimals);
      lengths |= length;
      faults = v128.or(faults, beyondDigits(i8x16.max_u(one, other)));
      const divisors = v128.load64_lane(unmarked + ((length - mark) << 3), v128.load64_zero(divisor), 1);
      const values = f64x2.div(twoOf(foursOf(one), foursOf(other)), divisors);
      store<u64>(to, i64x2.extract_lane(values, 0) | sign);
      store<u64>(to + stride, i64x2.extract_lane(values, 1) | otherSign);
      at = next + 1;
      left -= 2;
      if (left == 0) break;
    }
    if (left != 0 || lengths > 15 || v128.any_true(faults)) break;
    start = at;
  }
  ended = start;
  return row;
}

/** Vectors of which the matching bytes are counted within a byte each. */
const mostCounted: usize = 255;

/** How many lines end in so many bytes: at a line feed, or at a return that none follows. The byte behind them is looked at, too. */
export function countLines(from: usize, count: i32): i32 {
  const end = from + <usize>count;
  let at = from;
  let lines = 0;
  let returns = i8x16.splat(0);
  // Where there are line feeds alone they need not be looked at one by one.
  while (at + 16 <= end && !v128.any_true(returns)) {
    const stop = min(end - 15, at + 16 * mostCounted);
    let feeds = i8x16.splat(0);
    for (; at < stop; at += 16) {
      const bytes = v128.load(at);
      feeds = i8x16.sub(feeds, i8x16.eq(bytes, i8x16.splat(10)));
      returns = v128.or(returns, i8x16.eq(bytes, i8x16.splat(13)));
    }
    const sums = i32x4.extadd_pairwise_i16x8_u(i16x8.extadd_pairwise_i8x16_u(feeds));
    const two = i64x2.add(i64x2.extend_low_i32x4_u(sums), i64x2.extend_high_i32x4_u(sums));
    lines += <i32>(i64x2.extract_lane(two, 0) + i64x2.extract_lane(two, 1));
  }
  if (v128.any_true(returns)) {
    at = from;
    lines = 0;
  }
  for (; at + 16 <= end; at += 16) lines += popcnt(i8x16.bitmask(lineEndsAt(at)));
  return lines + popcnt(i8x16.bitmask(lineEndsAt(at)) & ((1 << <i32>(end - at)) - 1));
}

@inline function lineEndsAt(at: usize): v128 {
  const bytes = v128.load(at);
  const feeds = i8x16.eq(bytes, i8x16.splat(10));
  return v128.or(feeds, v128.andnot(i8x16.eq(bytes, i8x16.splat(13)), i8x16.eq(v128.load(at, 1), i8x16.splat(10))));
}

/** Whether none of so many bytes has its highest bit set. */
export function areAscii(count: i32): i32 {
  let one = i8x16.splat(0);
  let other = one;
  const end = input + <usize>count;
  for (let at = input; at < end; at += 32) {
    one = v128.or(one, v128.load(at));
    other = v128.or(other, v128.load(at, 16));
  }
  return <i32>(i8x16.bitmask(v128.or(one, other)) == 0);
}

/** Keeps which cells of a row that was taken are empty. */
function noteEmpties(first: usize, columns: i32, stride: usize): void {
  for (let k = 0, at = first; k < columns; k++, at += stride) {
    const value = load<f64>(at);
    if (load<u8>(own + kinds + k) == 0 && value != value) store<u8>(own + empties + k, 1);
  }
}

/** The first byte from `at` on that ends a text: one of the marks, a line's end, quotes, or the zeros behind all bytes. */
function textEnd(at: usize, delimiter: i32, stop: i32, blank: i32): usize {
  let found = 0;
  for (; ; at += 16) {
    const bytes = v128.load(at);
    const marks = v128.or(i8x16.eq(bytes, i8x16.splat(<i8>delimiter)), v128.or(i8x16.eq(bytes, i8x16.splat(<i8>stop)), i8x16.eq(bytes, i8x16.splat(<i8>blank))));
    const ends = v128.or(i8x16.eq(bytes, i8x16.splat(10)), i8x16.eq(bytes, i8x16.splat(13)));
    const odd = v128.or(i8x16.eq(bytes, i8x16.splat(34)), i8x16.eq(bytes, i8x16.splat(0)));
    found = i8x16.bitmask(v128.or(marks, v128.or(ends, odd)));
    if (found != 0) break;
  }
  return at + ctz(found);
}

/**
 * Seconds of the stamp at `at`, as src/readers/text/stamp.ts adds them up; sets `ended`, to 0 where it is not spelt as `stamps`
 * says. Most begin as the one before, up to their minutes.
 */
function stampAt(at: usize, delimiter: i32, tail: i32): f64 {
  ended = 0;
  const isDated = load<i32>(own + stamps, 52) != 0;
  const isKnown = isDated
    ? i8x16.all_true(i8x16.eq(v128.load(at), v128.load(own + stamps)))
    : ((load<u64>(at) ^ load<u64>(own + stamps)) & 0xffffffffff) == 0;
  if (!isKnown && !takeMinute(at, isDated)) return 0;
  at += isDated ? 16 : 5;
  if (load<u8>(at) != 58) return 0;
  const digits = i8x16.sub(v128.load(++at), i8x16.splat(48));
  let others = i8x16.bitmask(i8x16.gt_u(digits, i8x16.splat(9))) | 0x10000;
  if (ctz(others) != 2) return 0;
  const whole = twoAt(at);
  if (whole > 60) return 0;
  let part: f64 = 0;
  at += 2;
  const mark = <i32>load<u8>(at);
  if (mark == 46 || (mark == 44 && delimiter != 44 && tail != 44)) {
    others &= others - 1;
    const end = ctz(others);
    const places = end - 3;
    if (places < 1 || places > 9) return 0;
    const both = eights(digitsBy(end << 4 | 2, digits));
    const unit = load<f64>(powers + (places << 3));
    part = (<f64><i64>((both & 0xffffffff) * 100000000 + (both >> 32)) - <f64>whole * unit) / unit;
    at += 1 + places;
  }
  if (((load<u64>(at) ^ load<u64>(own + stamps, 32)) & load<u64>(own + stamps, 40)) != 0) return 0;
  ended = at + load<i32>(own + stamps, 48);
  return <f64>(load<i32>(own + stamps, 24) + whole) + part + load<f64>(own + stamps, 16) - load<f64>(own + stamps, 56);
}

/** Keeps the minute and the day that a stamp begins with; false where it begins otherwise. */
function takeMinute(at: usize, isDated: bool): bool {
  const begin = at;
  let days = 0;
  if (isDated) {
    const year = 100 * twoAt(at) + twoAt(at + 2);
    const month = twoAt(at + 5);
    const day = twoAt(at + 8);
    const parts = <i32>load<u8>(at + 10);
    if (twoAt(at) < 0 || twoAt(at + 2) < 0 || !isDateMark(load<u8>(at + 4)) || !isDateMark(load<u8>(at + 7))) return false;
    if (month < 1 || month > 12 || day < 1 || day > 31 || (parts != 84 && parts != 32 && parts != 95)) return false;
    days = daysFromCivil(year, month, day) - load<i32>(own + stamps, 28);
    at += 11;
  }
  const hours = twoAt(at);
  const minutes = twoAt(at + 3);
  if (hours < 0 || hours > 24 || minutes < 0 || minutes > 59 || load<u8>(at + 2) != 58) return false;
  v128.store(own + stamps, v128.load(begin));
  store<f64>(own + stamps, <f64>days * 86400, 16);
  store<i32>(own + stamps, hours * 3600 + minutes * 60, 24);
  return true;
}

@inline function isDateMark(c: i32): bool {
  return c == 45 || c == 46 || c == 47;
}

/** The number of two digits, or one far below 0. */
function twoAt(at: usize): i32 {
  const tens = <i32>load<u8>(at) - 48;
  const ones = <i32>load<u8>(at + 1) - 48;
  return <u32>tens <= 9 && <u32>ones <= 9 ? 10 * tens + ones : -10000;
}

/** Days from 1970-01-01 to a date of the Gregorian calendar (Hinnant 2013, `days_from_civil`). */
function daysFromCivil(year: i32, month: i32, day: i32): i32 {
  const y = month <= 2 ? year - 1 : year;
  const era = (y >= 0 ? y : y - 399) / 400;
  const yearOfEra = y - era * 400;
  const dayOfYear = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
  return era * 146097 + yearOfEra * 365 + yearOfEra / 4 - yearOfEra / 100 + dayOfYear - 719468;
}

/** The exponent whose first byte is at `at`, a sign and up to three digits; sets `ended`, to 0 where there is no such one. */
function exponentAt(at: usize): i32 {
  ended = 0;
  let c = <i32>load<u8>(at);
  const below = c == 45;
  if (below || c == 43) c = load<u8>(++at);
  const first = at;
  let exponent = 0;
  for (; <u32>(c - 48) <= 9 && at - first < 4; c = load<u8>(++at)) exponent = exponent * 10 + c - 48;
  if (at == first || at - first > 3) return 0;
  ended = at;
  return below ? -exponent : exponent;
}

/**
 * The number without its sign at `at`, of up to 19 digits that count, with an exponent or not; sets `ended`, to 0 where it
 * can't be told here.
 */
function longNumber(at: usize, decimal: i32): f64 {
  ended = 0;
  let whole: u64 = 0;
  // Digits from the first on that is not 0.
  let counted = 0;
  let any = false;
  let power = 0;
  let c = <i32>load<u8>(at);
  for (; <u32>(c - 48) <= 9; c = load<u8>(++at)) {
    any = true;
    whole = whole * 10 + (c - 48);
    if (whole != 0 && ++counted > 19) return 0;
  }
  if (c == decimal) {
    const mark = at;
    for (c = load<u8>(++at); <u32>(c - 48) <= 9; c = load<u8>(++at)) {
      any = true;
      whole = whole * 10 + (c - 48);
      if (whole != 0 && ++counted > 19) return 0;
    }
    power = <i32>(mark + 1 - at);
  }
  if (!any) return 0;
  if ((c | 32) == 101) {
    power += exponentAt(at + 1);
    if (ended == 0) return 0;
    at = ended;
    ended = 0;
  }
  if (whole == 0) {
    ended = at;
    return 0;
  }
  if (power < -55 || power > 40) return 0;
  ended = at;
  return nearest(whole, power);
}

/**
 * The double nearest to whole * 10^power, by the method of Eisel and Lemire (Lemire 2021, with the steps of its listing): the
 * upper bits of the product with a power of five of 128 bits. It sets `ended` to 0 where these do not tell.
 */
function nearest(whole: u64, power: i32): f64 {
  const zeros = <i32>clz(whole);
  const w = whole << zeros;
  const five = fives + ((power + 55) << 4);
  const upper = load<u64>(five);
  let low = w * upper;
  let high = upperHalf(w, upper);
  if ((high & 0x1ff) == 0x1ff) {
    const more = upperHalf(w, load<u64>(five, 8));
    low += more;
    if (low < more) high++;
  }
  if (low == u64.MAX_VALUE && (power < -27 || power > 55)) {
    ended = 0;
    return 0;
  }
  const top = <i32>(high >> 63);
  let mantissa = high >> (top + 9);
  let exponent = ((217706 * power) >> 16) + 63 + top - zeros + 1023;
  // Halfway between two doubles: to the even one.
  if (low <= 1 && power >= -4 && power <= 23 && (mantissa & 3) == 1 && mantissa << (top + 9) == high) mantissa &= ~1;
  mantissa = (mantissa + (mantissa & 1)) >> 1;
  if (mantissa >= 1 << 53) {
    mantissa = 1 << 52;
    exponent++;
  }
  return reinterpret<f64>((<u64>exponent << 52) | (mantissa & 0xfffffffffffff));
}

/** The upper half of the product of two words of 64 bits. */
function upperHalf(a: u64, b: u64): u64 {
  const al = a & 0xffffffff;
  const ah = a >> 32;
  const bl = b & 0xffffffff;
  const bh = b >> 32;
  const middle = ah * bl + (al * bl >> 32);
  return ah * bh + (middle >> 32) + ((al * bh + (middle & 0xffffffff)) >> 32);
}
