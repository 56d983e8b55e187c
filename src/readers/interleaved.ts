import { success, type Result } from '../result/result.ts';
import { clockOf } from './clock/clock.ts';
import { median, stepCounts } from './clock/steps.ts';
import { finding, refuse } from './messages.ts';
import type { Finding, ReadOptions } from './recording.ts';
import { findRoles, type Roles } from './roles.ts';
import { keepTableRows, rowsWhere } from './rows.ts';
import type { NumberColumn, Table, TableColumn } from './table.ts';

/** One of the sensors that take turns in a file. */
export interface Turn {
  /** What its channels' names begin with. */
  readonly name: string;
  /** What stands for it in the sensor's column. */
  readonly value: number;
}

/** The readings of several sensors beside each other, at the times of the first. */
export interface SideBySide {
  readonly table: Table;
  readonly findings: readonly Finding[];
}

/** Share of a step from which two sensors are not read at one time; share of the first one's rows that must meet others. */
const [together, least] = [0.01, 0.5];

/** Difference of two rates, as a share, from which sensors are not read together. */
const unequal = 0.01;

/**
 * A table of the first sensor's rows, with the readings that each of the others took nearest to them, within half a
 * step, in columns of their own. Where no time tells rows apart, the n-th rows of all are one. Refuses sensors that are
 * mostly read at other times than the first, or at another rate.
 * @param sensor index of the column that says which sensor a row is of
 * @param stated the rate in Hz that the file itself states
 */
export function sideBySide(
  path: string,
  table: Table,
  sensor: number,
  turns: readonly Turn[],
  options: ReadOptions,
  stated: number | undefined,
): Result<SideBySide> {
  const column = table.columns[sensor] as NumberColumn;
  const parts: Part[] = [];
  for (const { name, value } of turns) {
    const own = keepTableRows(
      table,
      rowsWhere(table.rows, (row) => column.values[row] === value),
    );
    const roles = findRoles(path, own, options, stated);
    if (!roles.ok) return roles;
    parts.push({ name, table: own, roles: roles.value });
  }
  const [first, ...others] = parts;
  const columns = first.table.columns.map((one, k) =>
    isReading(first, sensor, k) ? { ...one, sensor: first.name } : one,
  );
  const findings: Finding[] = [];
  for (const other of others) {
    const met = meeting(first, other);
    const rates = unequalRates(first, other);
    if (rates) return refuse('sensors-unequal', { path, first: first.name, other: other.name, rates });
    if (met.count < least * first.table.rows) {
      const facts = { first: first.name, other: other.name, met: met.count, rows: first.table.rows };
      return refuse('sensors-apart', { path, ...facts });
    }
    if (Math.abs(met.offset) > together * met.step)
      findings.push(finding('sensors-offset', 'warning', { first: first.name, other: other.name, offset: met.offset }));
    columns.push(...readingsOf(other, sensor, met.rows));
  }
  return success({ table: { ...first.table, columns }, findings });
}

/**
 * The rates in Hz of two sensors, where they differ: rows of one then lie at ever other times between those of the other,
 * and what is left of the faster one is thinned out unfiltered.
 */
function unequalRates(first: Part, other: Part): readonly [number, number] | undefined {
  const [one, two] = [first, other].map(({ roles: { time } }) => time && clockOf(time.seconds, time.resolution)?.rate);
  if (one === undefined || two === undefined) return undefined;
  return Math.abs(two / one - 1) > unequal ? [one, two] : undefined;
}

interface Part {
  readonly name: string;
  readonly table: Table;
  readonly roles: Roles;
}

/** Whether a column holds readings: neither the time, nor a counter, nor the sensor. */
function isReading({ table, roles }: Part, sensor: number, k: number): boolean {
  const { time, counter, leftOut } = roles;
  const used = [sensor, time?.index, counter, ...leftOut.map(({ index }) => index)];
  return table.columns[k].kind === 'number' && !used.includes(k);
}

function readingsOf(part: Part, sensor: number, rows: Int32Array): TableColumn[] {
  return part.table.columns.flatMap((column, k): TableColumn[] => {
    if (column.kind !== 'number' || !isReading(part, sensor, k)) return [];
    const values = Float64Array.from(rows, (row) => (row < 0 ? NaN : column.values[row]));
    return [{ ...column, values, sensor: part.name }];
  });
}

/** The row of the other sensor that belongs to each row of the first, or -1; how many there are, and how much later. */
interface Meeting {
  readonly rows: Int32Array;
  readonly count: number;
  /** Median in s, 0 where there is no time. */
  readonly offset: number;
  /** Usual step of the first sensor in s. */
  readonly step: number;
}

function meeting(first: Part, other: Part): Meeting {
  const [a, b] = [secondsOf(first), secondsOf(other)];
  if (a === undefined || b === undefined || stepCounts(a).zero > 0.01 * a.length) {
    // A row that one of them lost would shift all that follow.
    const { rows: count } = first.table;
    if (count !== other.table.rows) return { rows: new Int32Array(count).fill(-1), count: 0, offset: 0, step: 1 };
    return { rows: Int32Array.from({ length: count }, (_, i) => i), count, offset: 0, step: 1 };
  }
  const steps = a.slice(1).map((time, i) => time - a[i]);
  const step = median(steps.filter((one) => one > 0));
  // Where two take turns evenly, the reading before and the one after are as near: all have to take the same of them.
  const usual = median(offsetsOf(a, b, rowsNear(a, b, { shift: 0, within: 0.6 * step })));
  const near = rowsNear(a, b, { shift: Number.isNaN(usual) ? 0 : usual, within: 0.5 * step });
  const offsets = offsetsOf(a, b, near);
  return { rows: near, count: offsets.length, offset: median(offsets), step };
}

/** The stamp of `b` nearest to each of `a` and a shift, or -1 where none is within so many s. */
function rowsNear(
  a: Float64Array,
  b: Float64Array,
  { shift, within }: { readonly shift: number; readonly within: number },
): Int32Array {
  let j = 0;
  return Int32Array.from(a, (time) => {
    if (Number.isNaN(time)) return -1;
    const wanted = time + shift;
    while (j + 1 < b.length && !(Math.abs(b[j + 1] - wanted) > Math.abs(b[j] - wanted))) j++;
    return j < b.length && Math.abs(b[j] - wanted) <= within ? j : -1;
  });
}

const offsetsOf = (a: Float64Array, b: Float64Array, rows: Int32Array): Float64Array =>
  Float64Array.from(
    [...rows.keys()].filter((i) => rows[i] >= 0),
    (i) => b[rows[i]] - a[i],
  );

function secondsOf({ roles: { time } }: Part): Float64Array | undefined {
  return time?.seconds.map((second) => time.origin + (time.base ?? 0) + second);
}
