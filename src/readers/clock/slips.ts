import type { Span } from '../plainFacts.ts';
import { settings } from '../settings.ts';
import { spansOf, type Break } from './breaks.ts';

/**
 * The breaks, and those that single steps of coarse stamps hide: with even sampling stamps lie within one quantum above a
 * line over their rows, and after a loss for good as many steps higher as samples are lost. Where rounding comes back to the
 * same few places (at a rate that is a whole number of quanta, say) a loss looks like the rounding of another rate, and
 * none is found.
 * @param quantum step that the stamps are rounded to, in s
 * @param rateBetween samples a second of the rows between breaks
 */
export function withSlips(
  t: Float64Array,
  breaks: readonly Break[],
  quantum: number,
  rateBetween: (breaks: readonly Break[]) => number,
): readonly Break[] {
  let all = breaks;
  // Each loss that is found makes the rate more exact, by which the next is found.
  for (const rows of settings.slips.rows) {
    for (let round = 0; round < 4; round++) {
      const step = 1 / rateBetween(all);
      const found = spansOf(t.length, all).flatMap((span) => slipsIn(t, span, { rows, step, quantum }));
      if (found.length === 0) break;
      all = [...all, ...found].sort((a, b) => a.row - b.row);
    }
  }
  return all;
}

interface Search {
  readonly rows: number;
  readonly step: number;
  readonly quantum: number;
}

function slipsIn(t: Float64Array, span: Span, search: Search): Break[] {
  if (span.to - span.from < 2 * search.rows) return [];
  const found: Break[] = [];
  let best: Slip | undefined;
  for (const part of doubtful(t, span, search)) best = slipsAlong(t, span.from, part, { search, best, found });
  if (best !== undefined) kept(best, search.step, found);
  return found;
}

/** Rows of a block of which is told whether they may hold a slip: several times as many as are looked at on both sides of one. */
const block = 8 * Math.max(...settings.slips.rows);

/**
 * The rows of a span at which there may be a slip: a band moves by no more than the offsets of all its rows and those before
 * lie apart, which for nearly all rows of most clocks is less than a slip.
 */
function doubtful(t: Float64Array, { from, to }: Span, { step }: Search): Span[] {
  const parts: { from: number; to: number }[] = [];
  let [lowBefore, highBefore] = [Infinity, -Infinity];
  for (let begin = from; begin < to; begin += block) {
    const end = Math.min(to, begin + block);
    let [low, high] = [Infinity, -Infinity];
    for (let i = begin; i < end; i++) {
      const offset = offsetOf(t, from, i, step);
      if (offset < low) low = offset;
      if (offset > high) high = offset;
    }
    const moved = Math.max(high, highBefore) - Math.min(low, lowBefore);
    const last = parts.at(-1);
    if (isSlip(moved, step)) {
      if (last?.to === begin) last.to = end;
      else parts.push({ from: begin, to: end });
    }
    [lowBefore, highBefore] = [low, high];
  }
  return parts;
}

interface Slip {
  readonly row: number;
  readonly shift: number;
  readonly sum: number;
}

/** How far a stamp lies from where it would, had all rows since the first kept their step, in s. */
const offsetOf = (t: Float64Array, first: number, row: number, step: number): number =>
  t[row] - t[first] - (row - first) * step;

/**
 * Looks for slips that are seen at the rows of a part of a span, and adds to those found what nothing that comes can better.
 * @param first row of the span
 * @returns the best so far of those that something may better
 */
function slipsAlong(
  t: Float64Array,
  first: number,
  { from, to }: Span,
  given: { readonly search: Search; readonly best: Slip | undefined; readonly found: Break[] },
): Slip | undefined {
  const { rows, step, quantum } = given.search;
  let { best } = given;
  const [lows, highs] = [new Extreme(rows, -1), new Extreme(rows, 1)];
  const before = Array.from({ length: rows }, () => ({ low: 0, high: 0 }));
  for (let i = Math.max(first, from - 2 * rows + 1); i < to; i++) {
    const offset = offsetOf(t, first, i, step);
    const now = { low: lows.push(offset), high: highs.push(offset) };
    const earlier = before[i % rows];
    before[i % rows] = now;
    if (i < from || i < first + 2 * rows - 1) continue;
    const shift = shiftBetween(earlier, now, { step, quantum });
    const row = i - rows + 1;
    if (best !== undefined && row - best.row > rows) best = kept(best, step, given.found);
    if (shift === undefined || (best !== undefined && shift <= best.shift)) continue;
    best = { row, shift, sum: now.low - earlier.low + (now.high - earlier.high) };
  }
  return best;
}

function kept(best: { readonly row: number; readonly sum: number }, step: number, found: Break[]): undefined {
  found.push({ row: best.row, reset: false, missing: Math.round(best.sum / 2 / step) });
  return undefined;
}

interface Band {
  readonly low: number;
  readonly high: number;
}

/** By how much offsets move from one band to another, in s, where both are as wide as rounding makes them and it is a step. */
function shiftBetween(
  before: Band,
  after: Band,
  { step, quantum }: Pick<Search, 'step' | 'quantum'>,
): number | undefined {
  const { unfilled, beyond } = settings.slips;
  for (const { low, high } of [before, after]) {
    const width = high - low;
    if (quantum - width > unfilled * step || width - quantum > beyond * step) return undefined;
  }
  const moved = Math.min(after.low - before.low, after.high - before.high);
  return isSlip(moved, step) ? moved : undefined;
}

/** @param moved by how much offsets move, in s */
const isSlip = (moved: number, step: number): boolean => moved > settings.slips.shift * step;

/** The largest of the latest values, or with a sign of -1 the smallest: a queue of those that can still become it. */
class Extreme {
  readonly #length: number;
  readonly #sign: number;
  readonly #queue: { at: number; value: number }[] = [];
  #first = 0;
  #count = 0;

  constructor(length: number, sign: 1 | -1) {
    this.#length = length;
    this.#sign = sign;
  }

  /** Takes a value, and gives the extreme of the latest ones. */
  push(value: number): number {
    const queue = this.#queue;
    while (queue.length > this.#first && this.#sign * queue[queue.length - 1].value <= this.#sign * value) queue.pop();
    queue.push({ at: this.#count++, value });
    if (queue[this.#first].at <= this.#count - 1 - this.#length) this.#first++;
    if (this.#first > this.#length) {
      queue.splice(0, this.#first);
      this.#first = 0;
    }
    return queue[this.#first].value;
  }
}
