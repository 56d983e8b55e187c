import { possibleScales, scaleName, spreadsheetEpoch, styleOf } from './clock/scale.ts';
import { stepShape } from './clock/steps.ts';
import { unwrapped } from './clock/wrap.ts';
import { clockInDigits, joinFractions, type Joined } from './fractions.ts';
import { readHeader } from './names.ts';
import type { ReadOptions } from './recording.ts';
import { Refused, figure, list } from './refusal.ts';
import { columnName, type NumberColumn, type StampColumn, type Table } from './table.ts';
import { isCounterName, isStepName, timeName, timeScale } from './time-names.ts';
import { zoneMinutes } from './text/stamp.ts';

/** The column that tells when samples were taken. */
export interface TimeRole {
  readonly index: number;
  /** Seconds on the column's own clock less `origin`, in row order. */
  readonly seconds: Float64Array;
  readonly origin: number;
  readonly style: string;
  /** One unit of the last digit in s. */
  readonly spelling: number;
  /** Seconds from 1970 of second 0 of that clock, or undefined where the day is not known. */
  readonly base: number | undefined;
  readonly zone: string | undefined;
}

export interface Roles {
  readonly time: TimeRole | undefined;
  /** Index of a column that counts rows. */
  readonly counter: number | undefined;
  /** Other columns that are times, and why they were not read. */
  readonly leftOut: readonly { readonly index: number; readonly why: string }[];
}

interface Candidate {
  readonly index: number;
  readonly column: NumberColumn | StampColumn;
  /** Seconds of one unit, where it is stated. */
  readonly scale: number | undefined;
  readonly byName: boolean;
}

/**
 * Says which column is the time and which counts rows. Throws `Refused` where two readings are possible.
 * @param stated the rate that the file itself states, which may settle the unit of its time
 */
export function findRoles(path: string, table: Table, options: ReadOptions, stated?: number): Roles {
  const counter = findCounter(table, options);
  const given = options.time === undefined ? undefined : timeByOption(path, table, options.time);
  const rated = options.rate !== undefined || stated !== undefined;
  const found = given ? [given] : timeCandidates(table, counter, rated);
  const joined = given ? undefined : joinFractions(found);
  const candidates = joined === undefined ? found : withFraction(found, joined);
  if (given && !runsForward(given.column)) {
    throw new Refused(
      'time-stands-still',
      `${path}: ${columnName(given.column, given.index)} does not run forward, so it tells no rate: name another column with time, or leave time out and state the rate with rate.`,
    );
  }
  const usable = candidates.filter(({ column }) => given || runsForward(column));
  const leftOut = candidates
    .filter((one) => !usable.includes(one))
    .map(({ index }) => ({ index, why: 'it is a time that does not run forward' }));
  if (joined !== undefined) leftOut.push({ index: joined.part, why: 'it is the part of the second, and was added' });
  if (usable.length === 0) return { time: undefined, counter, leftOut };
  const readings = usable.map((one) => readTime(path, one, options, stated));
  const sound = readings.filter((one) => one !== undefined);
  for (const [i, one] of usable.entries())
    if (readings[i] === undefined) leftOut.push({ index: one.index, why: 'it is no time at the rate that is stated' });
  if (sound.length === 0) return { time: undefined, counter, leftOut };
  const best = finest(path, table, sound);
  const others = usable
    .filter((one, i) => one.index !== best.index && readings[i] !== undefined)
    .map(({ index }) => ({ index, why: 'another time column was read' }));
  return { time: best, counter: counter === best.index ? undefined : counter, leftOut: [...leftOut, ...others] };
}

/** The times with the two columns that are one time joined. */
const withFraction = (times: readonly Candidate[], { whole, part, column }: Joined): Candidate[] =>
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

function timeByOption(path: string, table: Table, name: string): Candidate {
  const same = (text: string | undefined): boolean => text?.trim().toLowerCase() === name.trim().toLowerCase();
  const numbered = /^column\s?(\d+)$/i.exec(name.trim());
  const index = table.columns.findIndex(({ header }, i) =>
    header === undefined
      ? numbered !== null && Number(numbered[1]) === i + 1
      : same(header) || same(readHeader(header).name),
  );
  const column = table.columns[index];
  if (!column) {
    const names = table.columns.map((one, i) => (one.header === undefined ? `"column${i + 1}"` : `"${one.header}"`));
    throw new Refused(
      'no-time-column',
      `${path}: there is no column "${name}" to read as time; the columns are ${list(names)}.`,
    );
  }
  if (column.kind !== 'number' && column.kind !== 'stamp') {
    throw new Refused(
      'time-not-numbers',
      `${path}: the column "${name}" holds neither numbers nor clock stamps, so it can't be read as time: name another with time.`,
    );
  }
  return { index, column, scale: column.kind === 'number' ? statedScale(column) : 1, byName: true };
}

function statedScale(column: NumberColumn): number | undefined {
  const reading = column.header === undefined ? undefined : readHeader(column.header, column.unitBelow);
  if (!reading) return column.unitBelow === undefined ? undefined : timeScale(column.unitBelow.replace(/[()[\]]/g, ''));
  const fromUnit = reading.unitText === undefined ? undefined : timeScale(reading.unitText);
  return fromUnit ?? timeName(reading.name)?.scale;
}

/** @param rated whether a rate is stated, so that no column with another name has to be the time */
function timeCandidates(table: Table, counter: number | undefined, rated: boolean): Candidate[] {
  const named: Candidate[] = [];
  const unnamed: Candidate[] = [];
  const steps: Candidate[] = [];
  for (const [index, column] of table.columns.entries()) {
    if (index === counter) continue;
    if (column.kind === 'stamp' && column.clock) named.push({ index, column, scale: 1, byName: true });
    if (column.kind !== 'number') continue;
    const reading = column.header === undefined ? undefined : readHeader(column.header, column.unitBelow);
    const unitIsTime = reading?.unitText !== undefined && timeScale(reading.unitText) !== undefined && !reading.axis;
    // A unit of something else shows that a `T` is a temperature.
    const otherUnit =
      reading?.unitText !== undefined &&
      !unitIsTime &&
      !/utc|gmt|epoch|unix|posix|local|date|hh|:/i.test(reading.unitText);
    if (reading && isStepName(reading.name) && !otherUnit && column.values.every((step) => step >= 0)) {
      steps.push({ index, column: summed(column), scale: statedScale(column), byName: true });
    } else if (reading && ((timeName(reading.name) && !otherUnit && !isBareT(column.header)) || unitIsTime))
      named.push({ index, column, scale: statedScale(column), byName: true });
    else if (!(rated && reading) && !reading?.axis && !isNoTime(reading?.name) && looksLikeTime(column.values)) {
      unnamed.push({ index, column, scale: statedScale(column), byName: false });
    }
  }
  if (named.some(({ column }) => runsForward(column))) return named;
  return [...named, ...(steps.length > 0 ? steps : unnamed).slice(0, 1)];
}

/** A lone capital T without a unit is as often a temperature: it must then look like a time as well. */
const isBareT = (header: string | undefined): boolean => header?.trim() === 'T';

/** Names of what rises evenly and is no time: a count of rows, or the way along a route. */
const isNoTime = (name: string | undefined): boolean =>
  name !== undefined &&
  (isCounterName(name) ||
    /dist|weg|strecke|position|\b(pos|lat|lon|lng|alt)|breite|l[aä]nge|length|odo|angle|winkel|phase|heading|speed|load|force|temp|volt|batt|rev/i.test(
      name,
    ));

/** Times since the row before, summed up. */
function summed(column: NumberColumn): NumberColumn {
  let time = 0;
  return { ...column, values: column.values.map((step, i) => (i === 0 ? 0 : (time += step))) };
}

function runsForward({ values }: NumberColumn | StampColumn): boolean {
  const { forwardMedian } = stepShape(values);
  return forwardMedian > 0 && forwardShare(values) > 0.5 && getsOn(values, forwardMedian);
}

/** Whether steps forward outweigh steps back of their size; clocks that begin anew step back much farther. */
function getsOn(values: Float64Array, usual: number): boolean {
  let forward = 0;
  let backward = 0;
  for (let i = 1; i < values.length; i++) {
    const step = values[i] - values[i - 1];
    if (step > 0) forward += step;
    else if (step > -20 * usual) backward -= step;
  }
  return backward < 0.8 * forward;
}

/** Share of the steps that are not backward, of those that move. */
function forwardShare(values: Float64Array): number {
  const { forward, backward } = stepShape(values);
  return forward / Math.max(forward + backward, 1);
}

/** Whether numbers without a telling name rise by steps that are nearly alike, as no reading of a sensor does. */
function looksLikeTime(values: Float64Array): boolean {
  if (values.length < 3 || forwardShare(values) < 0.95) return false;
  const { forwardMedian } = stepShape(values);
  let near = 0;
  for (let i = 1; i < values.length; i++) {
    const step = values[i] - values[i - 1];
    if (step > 0.2 * forwardMedian && step < 5 * forwardMedian) near++;
  }
  return (
    forwardMedian > 0 &&
    near >= 0.6 * (values.length - 1) &&
    values[values.length - 1] - values[0] > 0.5 * near * forwardMedian
  );
}

function readTime(
  path: string,
  { index, column, scale, byName }: Candidate,
  options: ReadOptions,
  stated: number | undefined,
): TimeRole | undefined {
  if (column.kind === 'stamp') {
    const seconds = column.base === undefined ? overMidnight(column.values) : column.values;
    const headed = column.zone === undefined ? zoneInHeader(column.header) : undefined;
    const base = column.base === undefined ? undefined : column.base - 60 * (headed?.minutes ?? 0);
    return {
      index,
      seconds,
      origin: 0,
      style: column.style,
      spelling: column.quantum,
      base,
      zone: column.zone ?? headed?.text,
    };
  }
  const { values } = column;
  const digits = scale === undefined && byName ? clockInDigits(values) : undefined;
  if (digits !== undefined) {
    const spelling = 10 ** -Math.max(0, column.decimals);
    return { index, seconds: digits, origin: 0, style: 'hhmmss', spelling, base: undefined, zone: undefined };
  }
  const shape = stepShape(values);
  const span = values[values.length - 1] - values[0];
  const step = Math.max(span / Math.max(values.length - 1, 1), 0) || shape.forwardMedian;
  const typical = shape.zero > 0.05 * shape.count ? step : Math.min(step, shape.forwardMedian * 1.5);
  const all =
    scale === undefined
      ? possibleScales(values[0], typical, column.decimals <= 0, options.rate)
      : [{ scale, style: styleOf(scale, values[0]) }];
  const fitting = all.filter((one) => stated !== undefined && Math.abs(Math.log(stated * typical * one.scale)) < 0.3);
  const possible = all.length > 1 && fitting.length === 1 ? fitting : all;
  const name = columnName(column, index);
  if (
    scale === undefined &&
    options.rate === undefined &&
    fitting.length !== 1 &&
    shape.zero === 0 &&
    isCount(values)
  ) {
    throw new Refused(
      'time-or-counter',
      `${path}: ${name} goes up by exactly 1 from row to row, which reads as milliseconds at 1000 Hz and as a count of rows: say which with rate, such as rate 1000 Hz.`,
    );
  }
  if (possible.length === 0) {
    // With the rate stated the recording can do without.
    if (!byName || (options.rate !== undefined && options.time === undefined)) return undefined;
    throw new Refused(
      'time-unit',
      `${path}: the numbers of ${name} (step ${figure(typical)}) are no time in s, ms or us at a rate that vibration is sampled at${options.rate === undefined ? '' : ` or at the stated ${figure(options.rate)} Hz`}: name the time column with time, or state the rate with rate.`,
    );
  }
  if (possible.length > 1) {
    const readings = possible.map((one) => `${scaleName(one.scale)} (${figure(1 / (typical * one.scale))} Hz)`);
    throw new Refused(
      'time-unit',
      `${path}: ${name} has no unit and reads as ${list(readings, 'and as')}: state the rate with rate, which settles it.`,
    );
  }
  const [only] = possible;
  const base = only.style.startsWith('epoch') ? 0 : only.style === 'days' ? spreadsheetEpoch : undefined;
  // So far from 1970 a double no longer holds microseconds: count from the first stamp.
  const first = base !== undefined ? values.findIndex((value) => !Number.isNaN(value)) : -1;
  const near = first < 0 ? values : values.map((value) => value - values[first]);
  const seconds = scaled(unwrapped(near, shape.forwardMedian), only.scale);
  const origin = first < 0 ? 0 : values[first] * only.scale;
  return {
    index,
    seconds,
    origin,
    style: only.style,
    spelling: 10 ** -column.decimals * only.scale,
    base,
    zone: base === 0 ? '+00:00' : undefined,
  };
}

const isCount = (values: Float64Array): boolean => values.every((value, i) => i === 0 || value - values[i - 1] === 1);

function scaled(values: Float64Array, scale: number): Float64Array {
  // Division keeps 0.001 x 250 at 0.25 where a product would not.
  const divisor = Math.round(1 / scale);
  return scale === 1
    ? values
    : divisor > 1
      ? values.map((value) => value / divisor)
      : values.map((value) => value * scale);
}

function overMidnight(values: Float64Array): Float64Array {
  if (stepShape(values).backward === 0) return values;
  let days = 0;
  let wrapped: Float64Array | undefined;
  for (let i = 1; i < values.length; i++) {
    if (values[i] - values[i - 1] < -43_200) {
      days++;
      wrapped ??= values.slice();
    }
    if (wrapped) wrapped[i] = values[i] + days * 86_400;
  }
  return wrapped ?? values;
}

/** The offset from UTC that a header states, such as `local time (UTC+0200)`. */
function zoneInHeader(header: string | undefined): { readonly text: string; readonly minutes: number } | undefined {
  const text = header === undefined ? undefined : /(?:UTC|GMT)?\s?[+-]\d{2}:?\d{2}|UTC|GMT/i.exec(header)?.[0].trim();
  const minutes = text === undefined ? undefined : zoneMinutes(text);
  return text === undefined || minutes === undefined ? undefined : { text, minutes };
}

/** The time with the finest steps that still runs forward; times that contradict each other are refused. */
function finest(path: string, table: Table, readings: readonly TimeRole[]): TimeRole {
  if (readings.length === 1) return readings[0];
  const judged = readings.map((role) => {
    const shape = stepShape(role.seconds);
    const mean = (role.seconds[role.seconds.length - 1] - role.seconds[0]) / Math.max(shape.count, 1);
    return { role, mean, bad: (shape.zero + shape.backward) / Math.max(shape.count, 1) };
  });
  const [first] = judged;
  for (const other of judged) {
    const slack = (2 * Math.max(first.role.spelling, other.role.spelling)) / Math.max(first.role.seconds.length - 1, 1);
    if (Math.abs(other.mean - first.mean) <= settingsAgree * first.mean + slack) continue;
    const one = columnName(table.columns[first.role.index], first.role.index);
    const two = columnName(table.columns[other.role.index], other.role.index);
    throw new Refused(
      'times-differ',
      `${path}: ${one} and ${two} are both times but do not agree (${figure(1 / first.mean)} Hz and ${figure(1 / other.mean)} Hz): name the right one with time.`,
    );
  }
  return judged.sort((a, b) => a.bad - b.bad || a.role.spelling - b.role.spelling)[0].role;
}

/** Difference of the mean step up to which two time columns are the same time. */
const settingsAgree = 0.05;
