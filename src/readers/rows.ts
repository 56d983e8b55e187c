import { success, type Result } from '../result/result.ts';
import { stepShape } from './clock/steps.ts';
import { rowsSentAgain } from './copies.ts';
import { hasGaps } from './gaps.ts';
import { finding, refuse } from './messages.ts';
import type { Finding, RecordedChannel } from './recording.ts';
import type { Table } from './table.ts';

/** Which rows of a table are kept, in order: all of the first `length` where no indices stand. */
export interface Rows {
  readonly length: number;
  readonly indices?: Int32Array | undefined;
}

/** The rows of so many that pass a test. */
export function rowsWhere(count: number, test: (row: number) => boolean): Rows {
  const rows = new Int32Array(count);
  let kept = 0;
  for (let row = 0; row < count; row++) if (test(row)) rows[kept++] = row;
  return { length: kept, indices: rows.subarray(0, kept) };
}

/** Those of some rows whose i-th passes a test. */
export function rowsOf(rows: Rows, test: (i: number) => boolean): Rows {
  const kept = rowsWhere(rows.length, test);
  return { length: kept.length, indices: kept.indices?.map((i) => rowAt(rows, i)) };
}

/** The row of the table that is the i-th kept. */
export const rowAt = ({ indices }: Rows, i: number): number => (indices ? indices[i] : i);

/** Some of an array's values, in the order of the rows named; the array itself where those are all of them. */
export function pick(values: Float64Array, { length, indices }: Rows): Float64Array {
  if (!indices) return values;
  const result = new Float64Array(length);
  for (let i = 0; i < length; i++) result[i] = values[indices[i]];
  return result;
}

/** The rows that are kept, and what is worth mentioning of the others. */
export interface SoundRows {
  readonly rows: Rows;
  /** How many rows were left out because they had been sent before. */
  readonly sentAgain: number;
  readonly findings: readonly Finding[];
}

/**
 * Rows that hold a stamp and a reading of every axis, less those that say the same as the row before, or as any row
 * before where they come late. Refuses a table
 * of which more than half the rows hold none, or fewer than two are left.
 */
export function soundRows(
  path: string,
  table: Table,
  stamps: Float64Array | undefined,
  channels: readonly RecordedChannel[],
): Result<SoundRows> {
  const axes = channels.filter(({ axis }) => axis);
  const needed = (axes.length > 0 ? axes : channels).map(({ samples }) => samples);
  if (stamps) needed.push(stamps);
  const findings: Finding[] = [];
  let rows: Rows = { length: table.rows };
  if (needed.some(hasGaps)) {
    rows = rowsWhere(table.rows, (row) => needed.every((values) => !Number.isNaN(values[row])));
    const empty = table.rows - rows.length;
    const facts = { empty, rows: table.rows, line: table.lineOf(firstLeftOut(rows)) };
    if (empty > 0.5 * table.rows) return refuse('mostly-empty', { path, ...facts });
    findings.push(finding('empty-cells', 'warning', facts, { value: empty }));
  }
  const all = channels.map(({ samples }) => samples);
  const late = stamps ? withoutLateCopies(table, rows, stamps, all) : undefined;
  rows = late?.rows ?? rows;
  findings.push(...(late?.findings ?? []));
  if (stamps && stampsRepeatRows(stamps, all)) {
    const filled = rows;
    rows = rowsOf(filled, (i) => {
      const [row, before] = [rowAt(filled, i), rowAt(filled, i - 1)];
      const isSameStamp = i > 0 && stamps[row] === stamps[before];
      return !isSameStamp || !all.every((values) => Object.is(values[row], values[before]));
    });
    const repeated = filled.length - rows.length;
    if (repeated > 0)
      findings.push(finding('rows-repeated', 'note', { repeated, rows: table.rows }, { value: repeated }));
  }
  return rows.length < 2
    ? refuse('too-short', { path, rows: 'incomplete' })
    : success({ rows, sentAgain: late?.sentAgain ?? 0, findings });
}

/** Rows less those that come again later on, as where a buffer is sent twice; undefined where there is none. */
function withoutLateCopies(
  table: Table,
  rows: Rows,
  stamps: Float64Array,
  readings: readonly Float64Array[],
): SoundRows | undefined {
  const kept = pick(stamps, rows);
  if (stepShape(kept).backward === 0) return undefined;
  const again = rowsSentAgain(kept, [kept, ...readings.map((values) => pick(values, rows))]);
  const first = again.indexOf(1);
  if (first < 0) return undefined;
  const fresh = rowsOf(rows, (i) => again[i] === 0);
  const sentAgain = rows.length - fresh.length;
  const facts = { again: sentAgain, rows: table.rows, line: table.lineOf(rowAt(rows, first)) };
  return { rows: fresh, sentAgain, findings: [finding('rows-sent-again', 'warning', facts, { value: sentAgain })] };
}

/** The first row that is not kept. */
function firstLeftOut({ length, indices }: Rows): number {
  const found = indices?.findIndex((row, i) => row !== i) ?? -1;
  return found < 0 ? length : found;
}

/** Whether a stamp that comes again brings the same readings again: the row is then a repeat, not a sample of its own. */
function stampsRepeatRows(stamps: Float64Array, columns: readonly Float64Array[]): boolean {
  if (stepShape(stamps).zero === 0) return false;
  let same = 0;
  let repeats = 0;
  for (let i = 1; i < stamps.length; i++) {
    if (stamps[i] !== stamps[i - 1]) continue;
    same++;
    if (columns.every((values) => Object.is(values[i], values[i - 1]))) repeats++;
  }
  return repeats > 0 && repeats >= 0.9 * same;
}
