import { success, type Message, type Result } from '../result/result.ts';
import { stepCounts } from './clock/steps.ts';
import { joinFractions, type Joined } from './fractions.ts';
import { refuse } from './messages.ts';
import { leftOutFor } from './messages/leftOut.ts';
import { readHeader } from './names.ts';
import type { ReadOptions } from './recording.ts';
import { columnName, type Table } from './table.ts';
import { runsForward, timeByOption, timeCandidates, type TimeCandidate } from './timeCandidates.ts';
import { isCounterName, timeName } from './timeNames.ts';
import { readTime, type TimeRole } from './timeRole.ts';

/** Which column is what. */
export interface Roles {
  readonly time: TimeRole | undefined;
  /** Index of a column that counts rows. */
  readonly counter: number | undefined;
  /** Other columns that are times, and why they were not read. */
  readonly leftOut: readonly { readonly index: number; readonly why: Message }[];
}

/**
 * Says which column is the time and which counts rows. Refuses a table of which two readings are possible.
 * @param stated the rate in Hz that the file itself states, which may settle the unit of its time
 */
export function findRoles(path: string, table: Table, options: ReadOptions, stated?: number): Result<Roles> {
  if (table.isOfSignals === true && options.time === undefined)
    return success({ time: undefined, counter: undefined, leftOut: [] });
  const counter = findCounter(table, options);
  const given = options.time === undefined ? undefined : timeByOption(path, table, options.time);
  if (given?.ok === false) return given;
  const chosen = given?.value;
  if (chosen && !runsForward(chosen.column))
    return refuse('time-stands-still', { path, column: columnName(chosen.column, chosen.index), isChosen: true });
  const found = chosen ? [chosen] : timeCandidates(table, counter, options.rate !== undefined || stated !== undefined);
  const joined = chosen ? undefined : joinFractions(found);
  const candidates = joined === undefined ? found : withFraction(found, joined);
  const leftOut: { index: number; why: Message }[] = [];
  const usable = candidates.filter((one) => {
    const isUsable = chosen !== undefined || runsForward(one.column);
    if (!isUsable) leftOut.push({ index: one.index, why: leftOutFor('column.backward', {}) });
    return isUsable;
  });
  if (joined !== undefined) leftOut.push({ index: joined.part, why: leftOutFor('column.fraction', {}) });
  const times: TimeRole[] = [];
  for (const one of usable) {
    const time = readTime(path, one, options, stated);
    if (!time.ok) return time;
    if (time.value) times.push(time.value);
    else leftOut.push({ index: one.index, why: leftOutFor('column.off-rate', {}) });
  }
  if (times.length === 0) return success({ time: undefined, counter, leftOut });
  const best = finest(path, table, times);
  if (!best.ok) return best;
  const { index } = best.value;
  const others = times.filter((one) => one.index !== index);
  leftOut.push(...others.map((one) => ({ index: one.index, why: leftOutFor('column.other-time', {}) })));
  return success({ time: best.value, counter: counter === index ? undefined : counter, leftOut });
}

/** The times with the two columns that are one time joined. */
const withFraction = (times: readonly TimeCandidate[], { whole, part, column }: Joined): TimeCandidate[] =>
  times.flatMap((one) =>
    one.index === part ? [] : one.index === whole ? [{ index: whole, column, scale: 1, byName: true }] : [one],
  );

function findCounter(table: Table, options: ReadOptions): number | undefined {
  for (const [index, column] of table.columns.entries()) {
    if (column.kind !== 'number' || column.decimals > 0) continue;
    const reading = column.header === undefined ? undefined : readHeader(column.header);
    if (column.header !== undefined && column.header === options.time) continue;
    if (reading && timeName(reading.name)) continue;
    const byName = reading !== undefined && isCounterName(reading.name);
    if (reading?.axis || (reading && !byName)) continue;
    if (countsUp(column.values, byName)) return index;
  }
  return undefined;
}

/** Whether whole numbers go up by one from row to row; a column that is named so may skip some. */
function countsUp(values: Float64Array, byName: boolean): boolean {
  let ones = 0;
  let forward = 0;
  for (let i = 1; i < values.length; i++) {
    const step = values[i] - values[i - 1];
    if (step === 1) ones++;
    if (step > 0) forward++;
  }
  const count = values.length - 1;
  return count > 0 && (byName ? ones >= 0.5 * count && forward >= 0.95 * count : ones === count);
}

/** Difference of the mean step up to which two time columns are the same time. */
const agreement = 0.05;

/** The time with the finest steps that still runs forward; times that contradict each other are refused. */
function finest(path: string, table: Table, times: readonly TimeRole[]): Result<TimeRole> {
  if (times.length === 1) return success(times[0]);
  const isThere = (value: number): boolean => !Number.isNaN(value);
  const all = times.map((role) => {
    const { seconds } = role;
    const shape = stepCounts(seconds);
    const span = (seconds.findLast(isThere) ?? NaN) - (seconds.find(isThere) ?? NaN);
    const mean = span / Math.max(shape.count, 1);
    return { role, mean, bad: (shape.zero + shape.backward) / Math.max(shape.count, 1) };
  });
  // One that does not run forward contradicts none that does.
  const rated = all.filter(({ mean }) => mean > 0);
  if (rated.length === 0) return success(times[0]);
  const [first] = rated;
  for (const other of rated) {
    const slack =
      (2 * Math.max(first.role.resolution, other.role.resolution)) / Math.max(first.role.seconds.length - 1, 1);
    if (Math.abs(other.mean - first.mean) <= agreement * first.mean + slack) continue;
    const [one, two] = [first, other].map(({ role: { index } }) => columnName(table.columns[index], index));
    return refuse('times-differ', { path, columns: [one, two], rates: [1 / first.mean, 1 / other.mean] });
  }
  return success(rated.sort((a, b) => a.bad - b.bad || a.role.resolution - b.role.resolution)[0].role);
}
