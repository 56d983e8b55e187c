import { factsOf } from '../columnFacts.ts';
import type { Span } from '../plainFacts.ts';
import { settings } from '../settings.ts';

/** Where a recording is interrupted, or its clock set anew. */
export interface Break {
  /** First row after the break. */
  readonly row: number;
  readonly reset: boolean;
  /** Samples that it leaves out, where the stamps are too coarse for the step across it to tell. */
  readonly missing?: number;
}

/**
 * The breaks that steps between stamps tell: longer than a limit where samples are lost, far back or back for good where the
 * clock was set or rows come late.
 * @param usual step between samples, and longest that is no gap, in s
 * @param shared whether several samples share a stamp
 * @param burst usual step from burst to burst in s, or 0
 */
export function findBreaks(t: Float64Array, usual: number, limit: number, shared: boolean, burst: number): Break[] {
  const breaks: Break[] = [];
  const { isWhole, leastStep, mostStep } = factsOf(t);
  if (isWhole && leastStep >= 0 && mostStep <= limit) return breaks;
  const reset = -Math.max(1, 20 * usual, 4 * burst);
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (step < reset) breaks.push({ row: i, reset: true });
    else if (step > limit && (shared || isLoss(t, i, usual, limit))) breaks.push({ row: i, reset: false });
    else if (step < 0 && !shared && isSetBack(t, i, usual)) breaks.push({ row: i, reset: true });
  }
  return breaks;
}

/** Rows on either side of a break that are looked at. */
const reach = 4;

/** A stamp that was only late is followed by shorter steps; after a loss the stamps stay behind for good. */
function isLoss(t: Float64Array, row: number, usual: number, limit: number): boolean {
  const isLong = (i: number): boolean => i > 0 && i < t.length && t[i] - t[i - 1] > limit;
  const before = offsets(t, usual, row - 1, row - 1 - reach, isLong);
  const after = offsets(t, usual, row, row + reach, (i) => isLong(i + 1));
  // Of an even number the nearer one: two rows that changed places lie as far before as behind.
  return after[(after.length - 1) >> 1] - before[before.length >> 1] > 0.5 * usual;
}

/** A stamp that runs back by itself is false; a clock that was set, or rows that come late, stay back. */
function isSetBack(t: Float64Array, row: number, usual: number): boolean {
  if (row < reach || row + reach > t.length) return false;
  const never = (): boolean => false;
  const before = offsets(t, usual, row - 1, row - 1 - reach, never);
  const after = offsets(t, usual, row, row + reach, never);
  return after[reach >> 1] - before[(reach - 1) >> 1] < -settings.setBack * usual;
}

/** By how much rows lie behind even steps, the least first, from one row on towards another, or up to where it stops. */
function offsets(t: Float64Array, usual: number, from: number, to: number, stop: (i: number) => boolean): number[] {
  const found: number[] = [];
  const step = from < to ? 1 : -1;
  for (let i = from; i !== to && i >= 0 && i < t.length; i += step) {
    found.push(t[i] - i * usual);
    if (stop(i)) break;
  }
  return found.sort((a, b) => a - b);
}

/** The unbroken rows between breaks. */
export function spansOf(rows: number, breaks: readonly Break[]): Span[] {
  const starts = [0, ...breaks.map(({ row }) => row)];
  return starts.map((from, i) => ({ from, to: starts[i + 1] ?? rows }));
}
