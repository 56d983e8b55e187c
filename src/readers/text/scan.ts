import { plainScan } from './plainScan.ts';
import type { Cursor, Plan } from './plan.ts';
import { RowsInPlace } from './rowsInPlace.ts';
import { ScanVectors } from './scanVectors.ts';

/** Rows that the plain loop takes at a time, at most, before the vectors are tried again. */
const mostPlain = 4096;

/** Rows taken by vectors from which on it was worth to try them. */
const worthwhile = 16;

/**
 * Reads regular rows from bytes [cursor.at, end) into the plan's sinks, and leaves the cursor at the end, or at the
 * first line that it can't read (a word where a number should be, a quote, too few fields). bytes[end - 1] must end a
 * line, and the byte after it must be readable. An empty cell is NaN. Rows that the vectors are not sure of are read by
 * the plain loop, so that the result is the same with and without them.
 */
export function scan(bytes: Uint8Array, cursor: Cursor, end: number, capacity: number, plan: Plan): void {
  const vectors = RowsInPlace.for(bytes, plan) ?? ScanVectors.for(bytes, end, plan);
  if (vectors === undefined) return plainScan(bytes, cursor, end, capacity, plan);
  let plain = 1;
  while (cursor.at < end && cursor.row < capacity) {
    const before = cursor.row;
    vectors.scan(cursor, capacity);
    plain = cursor.row - before >= worthwhile ? 1 : Math.min(2 * plain, mostPlain);
    const wanted = Math.min(capacity, cursor.row + plain);
    plainScan(bytes, cursor, end, wanted, plan);
    if (cursor.row < wanted) return;
  }
}
