import type { Stretch } from '../../signal/stretch.ts';
import { copiesOf } from '../copies.ts';
import { settings } from '../settings.ts';
import type { StampClock } from './clock.ts';
import { stepCounts } from './steps.ts';

/**
 * What leaves the order of rows in doubt: some still run back though copies were left out, came under stamps that had been
 * before with other readings, or were written after rows that were sampled later. Numbers of rows.
 */
export type Disorder =
  | { readonly why: 'behind'; readonly again: number; readonly behind: number }
  | { readonly why: 'differ'; readonly again: number }
  | { readonly why: 'late'; readonly late: number };

/**
 * Why the order of the rows is in doubt, where something leaves it so.
 * @param t stamps in s
 * @param sentAgain rows that were left out as copies
 */
export function disorderOf(t: Float64Array, clock: StampClock, sentAgain: number): Disorder | undefined {
  if (stepCounts(t).backward === 0) return undefined;
  const far = farBack(clock);
  const behind = sentAgain > 0 ? t.filter((stamp, i) => stamp < t[i - 1] && stamp >= t[i - 1] - far).length : 0;
  if (behind > 0) return { why: 'behind', again: sentAgain, behind };
  const again = stampsSentTwice(t, clock);
  if (again > 0) return { why: 'differ', again };
  const late = lateRows(t, clock.stretches);
  return late > 0 ? { why: 'late', late } : undefined;
}

/** By how many s a clock that jumps back has begun anew. */
const farBack = ({ rate }: StampClock): number => Math.max(1, 20 / rate);

/** How many of the latest gaps are looked into for rows that come late. */
const gapsBack = 16;

/** Rows that a jump back takes into a gap before it: they were written later than rows that were sampled after them. */
function lateRows(t: Float64Array, stretches: readonly Stretch[]): number {
  let late = 0;
  const gaps: { after: number; until: number }[] = [];
  for (const { from, to } of stretches.slice(1)) {
    const [before, first, last] = [t[from - 1], t[from], t[to - 1]];
    if (first > before) gaps.push({ after: before, until: first });
    else if (gaps.slice(-gapsBack).some(({ after, until }) => first > after && last < until)) late += to - from;
  }
  return late;
}

/**
 * Rows that come late under a stamp that has been before, where nearly all that come late do, and they are many: sent twice,
 * with other readings. Else 0.
 */
function stampsSentTwice(t: Float64Array, clock: StampClock): number {
  const { rate, quantum, delivery } = clock;
  const { zero, count } = stepCounts(t);
  const usual = 1 / rate;
  // Of rows that share a stamp the latest ones may change places.
  const isShared = delivery === 'coarse' || zero > settings.burst * count;
  const slack = isShared ? 2.5 * Math.max(usual, quantum) : 0.5 * usual;
  const far = farBack(clock);
  const copies = copiesOf([t]);
  let [late, again, latest] = [0, 0, -Infinity];
  for (let row = 0; row < t.length; row++) {
    // A clock that begins anew may well come by the same stamps again.
    if (row > 0 && t[row] < t[row - 1] - far) latest = -Infinity;
    if (t[row] < latest - slack) {
      late++;
      again += copies[row];
    }
    latest = Math.max(latest, t[row]);
  }
  return again >= settings.again.late * late && again > settings.again.rows * t.length ? again : 0;
}
