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

function slipsIn(t: Float64Array, { from, to }: Span, { rows, step, quantum }: Search): Break[] {
  const found: Break[] = [];
  if (to - from < 2 * rows) return found;
  const [lows, highs] = [new Extreme(rows, -1), new Extreme(rows, 1)];
  const before = Array.from({ length: rows }, () => ({ low: 0, high: 0 }));
  let best: { row: number; shift: number; sum: number } | undefined;
  for (let i = from; i < to; i++) {
    const offset = t[i] - t[from] - (i - from) * step;
    const now = { low: lows.push(offset), high: highs.push(offset) };
    const earlier = before[i % rows];
    before[i % rows] = now;
    if (i < from + 2 * rows - 1) continue;
    const shift = shiftBetween(earlier, now, { step, quantum });
    const row = i - rows + 1;
    if (best !== undefined && row - best.row > rows) best = kept(best, step, found);
    if (shift === undefined || (best !== undefined && shift <= best.shift)) continue;
    best = { row, shift, sum: now.low - earlier.low + (now.high - earlier.high) };
  }
  if (best !== undefined) kept(best, step, found);
  return found;
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
  const { unfilled, beyond, shift } = settings.slips;
  for (const { low, high } of [before, after]) {
    const width = high - low;
    if (quantum - width > unfilled * step || width - quantum > beyond * step) return undefined;
  }
  const moved = Math.min(after.low - before.low, after.high - before.high);
  return moved > shift * step ? moved : undefined;
}

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
