import { success, type Result } from '../result/result.ts';
import { stepCounts } from './clock/steps.ts';
import { rowsSentAgain } from './copies.ts';
import { filledRows } from './filledRows.ts';
import { finding, refuse } from './messages.ts';
import type { Finding, RecordedChannel } from './recording.ts';
import { pick, rowAt, rowsOf, type Rows } from './rows.ts';
import type { Table } from './table.ts';

/** The rows that are kept, and what is worth mentioning of the others. */
export interface SoundRows {
  readonly rows: Rows;
  /** How many rows were left out because they had been sent before. */
  readonly sentAgain: number;
  /** Whether the rows between are those of other sensors, so that nothing is lost there. */
  readonly isOneOfSeveral: boolean;
  readonly findings: readonly Finding[];
}

/**
 * Rows that hold a stamp and a reading of every axis, less those that say the same as the row before, or as any row
 * before where they come late. Refuses a table of which more than half the rows hold none, or fewer than two are left.
 * @param asked names of channels that are to be read, of all that there are
 */
export function soundRows(
  path: string,
  table: Table,
  stamps: Float64Array | undefined,
  channels: readonly RecordedChannel[],
  asked: readonly string[],
): Result<SoundRows> {
  const held = filledRows(path, table, stamps, channels, asked);
  if (!held.ok) return held;
  let { rows } = held.value;
  const { isOneOfSeveral } = held.value;
  const findings: Finding[] = [...held.value.findings];
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
    : success({ rows, sentAgain: late?.sentAgain ?? 0, isOneOfSeveral, findings });
}

/** Rows less those that come again later on, as where a buffer is sent twice; undefined where there is none. */
function withoutLateCopies(
  table: Table,
  rows: Rows,
  stamps: Float64Array,
  readings: readonly Float64Array[],
): Omit<SoundRows, 'isOneOfSeveral'> | undefined {
  const kept = pick(stamps, rows);
  if (stepCounts(kept).backward === 0) return undefined;
  const again = rowsSentAgain(kept, [kept, ...readings.map((values) => pick(values, rows))]);
  const first = again.indexOf(1);
  if (first < 0) return undefined;
  const fresh = rowsOf(rows, (i) => again[i] === 0);
  const sentAgain = rows.length - fresh.length;
  const facts = { again: sentAgain, rows: table.rows, line: table.lineOf(rowAt(rows, first)) };
  return { rows: fresh, sentAgain, findings: [finding('rows-sent-again', 'warning', facts, { value: sentAgain })] };
}

/** Whether a stamp that comes again brings the same readings again: the row is then a repeat, not a sample of its own. */
function stampsRepeatRows(stamps: Float64Array, columns: readonly Float64Array[]): boolean {
  if (stepCounts(stamps).zero === 0) return false;
  let same = 0;
  let repeats = 0;
  for (let i = 1; i < stamps.length; i++) {
    if (stamps[i] !== stamps[i - 1]) continue;
    same++;
    if (columns.every((values) => Object.is(values[i], values[i - 1]))) repeats++;
  }
  return repeats > 0 && repeats >= 0.9 * same;
}
