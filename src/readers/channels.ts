import { factsOf } from './columnFacts.ts';
import { withoutUnit } from './findChannel.ts';
import { success, type Result } from '../result/result.ts';
import { isCalled } from './filledRows.ts';
import { hasGaps } from './gaps.ts';
import { refuse } from './messages.ts';
import { leftOutFor } from './messages/leftOut.ts';
import { loneLetter, readHeader, unbracketed, type Axis } from './names.ts';
import type { LeftOut, ReadOptions, RecordedChannel } from './recording.ts';
import { settings } from './settings.ts';
import { columnName, type NumberColumn, type Table } from './table.ts';
import { settleUnit, unsettled, type UnitReading } from './unit.ts';
import { accelerationSize, isCounts, unitSymbol } from './units.ts';

/** A column that becomes a channel, before its unit is settled. */
interface Candidate {
  readonly index: number;
  readonly column: NumberColumn;
  readonly name: string;
  readonly letter: Axis | undefined;
  readonly axis: boolean;
  /** The header's unit in the language's spelling. */
  readonly unit: string | undefined;
  readonly unitText: string | undefined;
}

/** The channels of a recording, with what settled their unit. */
export interface Channels {
  readonly channels: readonly RecordedChannel[];
  readonly leftOut: readonly LeftOut[];
  readonly unit: UnitReading;
}

/**
 * Names the channels and settles their unit; refuses a table without any, an option that names none, and units that
 * contradict each other. `columns` are the indices of the numeric columns but time and counter.
 */
export function findChannels(
  path: string,
  table: Table,
  columns: readonly number[],
  preambleUnit: string | undefined,
  options: ReadOptions,
): Result<Channels> {
  const leftOut: LeftOut[] = [];
  const asked = [
    ...Object.values(options.channels ?? {}),
    ...(options.wanted ?? []),
    ...(options.tacho === undefined ? [] : [options.tacho]),
  ];
  const kept = columns.filter((index) => {
    const column = table.columns[index] as NumberColumn;
    const empty = emptyCells(column.values);
    const axis = column.header !== undefined && readHeader(column.header).axis !== undefined;
    // An axis with empty cells loses those rows; another column with many of them is worth none.
    if (empty <= settings.emptyCells * table.rows || axis || columns.length <= 3) return true;
    const { header } = column;
    if (header !== undefined && asked.some((name) => isCalled({ name: header, header }, name))) return true;
    leftOut.push({ column: columnName(column, index), why: leftOutFor('column.empty', { empty, rows: table.rows }) });
    return false;
  });
  const renamed = byHand(path, table, named(table, kept), options);
  if (!renamed.ok) return renamed;
  const candidates = distinct(preferCalibrated(renamed.value, leftOut));
  if (candidates.length === 0) return refuse('no-channels', { path, unread: unreadIn(table) });
  const axes = candidates.filter(({ axis }) => axis);
  const measured = axes.length > 0 ? axes : candidates;
  const unit = unitOfAll(path, measured, preambleUnit, gravityOf(axes), isWhole(axes), options);
  if (!unit.ok) return unit;
  const channels = candidates.map((one) => channelOf(one, measured.includes(one), unit.value, preambleUnit, options));
  return success({ channels, leftOut, unit: unit.value });
}

/** Columns that a file of binary format holds in a form that is not read. */
const unreadIn = ({ columns }: Table): LeftOut[] =>
  columns.flatMap((column, index) =>
    column.kind === 'other' && /^column\.(nested|type)$/.test(column.why.code)
      ? [{ column: columnName(column, index), why: column.why }]
      : [],
  );

/** What settles the unit of the measured channels, as far as their own headers do not. */
function unitOfAll(
  path: string,
  measured: readonly Candidate[],
  preambleUnit: string | undefined,
  length: number | undefined,
  isInteger: boolean,
  options: ReadOptions,
): Result<UnitReading> {
  const stated = new Set(measured.map(({ unit }) => unit ?? preambleUnit));
  const raw = measured.find(({ unitText }) => isRaw(unitText))?.unitText;
  const unknown = measured.find(({ unit, unitText }) => unit === undefined && unitText && !isRaw(unitText))?.unitText;
  if (stated.size === 1 || options.unit !== undefined) {
    const own = [...stated].filter((one) => one !== undefined);
    const option = options.unit === undefined ? undefined : (unitSymbol(options.unit) ?? options.unit);
    // Of several, the one that the option contradicts is the one to speak of.
    const header = own.find((one) => one !== option) ?? own[0];
    return settleUnit(path, { header, raw, unknown }, own.length > 1 ? undefined : length, isInteger, options);
  }
  // Columns in different units: each keeps its own, and what has none can't be settled by a vector of such a mixture.
  const without = measured.filter(({ unit }) => unit === undefined).map(({ name }) => name);
  if (without.length === 0 || preambleUnit !== undefined) return success({ unit: undefined, from: 'header' });
  return success(unsettled({ kind: 'some columns', without }));
}

/** Whether a header's unit is what a converter gives: counts or volts. */
const isRaw = (unitText: string | undefined): boolean =>
  unitText !== undefined && (isCounts(unitText) || isVolts(unitText));

const isVolts = (text: string): boolean => /^[mµu]?v(olts?)?$/i.test(text);

function channelOf(
  one: Candidate,
  measured: boolean,
  unit: UnitReading,
  preambleUnit: string | undefined,
  options: ReadOptions,
): RecordedChannel {
  const own = one.unit ?? (measured ? preambleUnit : undefined);
  const settled: UnitReading =
    measured && (unit.unit !== undefined || own === undefined)
      ? unit
      : { unit: own, from: own === undefined ? 'none' : 'header' };
  const scale = measured ? options.scale : undefined;
  return {
    name: one.name,
    header: one.column.header,
    unit: settled.unit,
    unitFrom: settled.from,
    axis: one.axis,
    samples: scale === undefined ? one.column.values : one.column.values.map((value) => value * scale),
  };
}

function emptyCells(values: Float64Array): number {
  let empty = 0;
  if (!hasGaps(values)) return 0;
  for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i])) empty++;
  return empty;
}

function named(table: Table, columns: readonly number[]): Candidate[] {
  if (!table.named) {
    const letters: readonly Axis[] = ['x', 'y', 'z'];
    return columns.map((index, i) => {
      const column = table.columns[index] as NumberColumn;
      const unitText = column.unitBelow === undefined ? undefined : unbracketed(column.unitBelow);
      const axis = columns.length === 3;
      return {
        index,
        column,
        name: axis ? letters[i] : `column${index + 1}`,
        letter: axis ? letters[i] : undefined,
        axis,
        unit: unitSymbol(unitText ?? ''),
        unitText,
      };
    });
  }
  const readings = columns.map((index) => {
    const column = table.columns[index] as NumberColumn;
    const reading = column.header === undefined ? undefined : readHeader(column.header, column.unitBelow);
    const unit = unitSymbol(reading?.unitText ?? '');
    // A named unit that is none of acceleration shows that an x, y or z is something else.
    const other =
      reading?.unitText !== undefined &&
      accelerationSize(unit) === undefined &&
      !isRaw(reading.unitText) &&
      !/^(-*|no units?|none|unitless)$/i.test(reading.unitText);
    return {
      index,
      column,
      name: reading === undefined || reading.name === '' ? `column${index + 1}` : reading.name,
      letter: other
        ? undefined
        : (reading?.axis ?? (accelerationSize(unit) !== undefined ? loneLetter(reading?.name ?? '') : undefined)),
      unit,
      unitText: reading?.unitText,
    };
  });
  // Of two sensors in one file nobody knows which is meant by x, so that all keep their headers.
  const letters = readings.flatMap(({ letter, column: { sensor } }) => (letter && sensor === undefined ? letter : []));
  const shared = new Set(letters).size < letters.length;
  return readings.map(({ letter, ...one }) => {
    const { sensor } = one.column;
    const name = letter !== undefined && !shared ? letter : one.name;
    return { ...one, name: sensor === undefined ? name : `${sensor}_${name}`, letter, axis: letter !== undefined };
  });
}

/** Raw and calibrated readings of the same axes side by side: the ones with a unit of acceleration are the axes. */
function preferCalibrated(candidates: readonly Candidate[], leftOut: LeftOut[]): Candidate[] {
  const axes = candidates.filter(({ axis }) => axis);
  const letterOf = ({ column }: Candidate): string | undefined =>
    column.header === undefined ? undefined : readHeader(column.header).axis;
  const letters = axes.map(letterOf);
  if (new Set(letters).size === letters.length) return [...candidates];
  const uncalibrated = ({ unitText, column }: Candidate): boolean =>
    isCounts(unitText ?? '') ||
    /\braw\b/i.test(`${column.kindBelow ?? ''} ${(column.header ?? '').replace(/_/g, ' ')}`);
  const good = axes.filter((one) => !uncalibrated(one));
  const goodLetters = good.map(letterOf);
  if (
    good.length === 0 ||
    new Set(goodLetters).size !== goodLetters.length ||
    !letters.every((letter) => goodLetters.includes(letter))
  )
    return [...candidates];
  const raw = axes.filter(uncalibrated);
  leftOut.push(
    ...raw.map(({ column, index }) => ({
      column: columnName(column, index),
      why: leftOutFor('column.raw', {}),
    })),
  );
  return candidates
    .filter((one) => !raw.includes(one))
    .map((one) => (good.includes(one) ? { ...one, name: letterOf(one) ?? one.name } : one));
}

/** Names that come again get a number, so that each channel can be asked for. */
function distinct(candidates: readonly Candidate[]): Candidate[] {
  const taken = new Map<string, number>();
  return candidates.map((one) => {
    const times = (taken.get(one.name) ?? 0) + 1;
    taken.set(one.name, times);
    return times === 1 ? one : { ...one, name: `${one.name} ${times}` };
  });
}

/** The candidates with the names that the option `channels` gives some of them. */
function byHand(
  path: string,
  table: Table,
  candidates: readonly Candidate[],
  options: ReadOptions,
): Result<Candidate[]> {
  let result = [...candidates];
  for (const [name, header] of Object.entries(options.channels ?? {})) {
    const same = (text: string | undefined): boolean => text?.trim().toLowerCase() === header.trim().toLowerCase();
    const whole = result.findIndex(
      (one) => same(one.column.header) || same(one.name) || same(`column${one.index + 1}`),
    );
    const short = result.flatMap(({ column }, i) => (same(withoutUnit(column.header ?? '')) ? [i] : []));
    const at = whole < 0 && short.length === 1 ? short[0] : whole;
    if (at < 0) {
      return refuse('no-such-channel', { path, name, header, columns: table.columns.map(columnName) });
    }
    const axis = /^[xyz]$/.test(name);
    result = result.map((one, i) =>
      i === at
        ? { ...one, name, axis: axis || one.axis }
        : one.name === name
          ? { ...one, name: one.column.header ?? `column${one.index + 1}`, axis: axis ? false : one.axis }
          : one,
    );
  }
  return success(result);
}

/** Length of the mean vector of x, y and z, of the first sensor where there are several; undefined without all three. */
function gravityOf(axes: readonly Candidate[]): number | undefined {
  const sensor = axes.at(0)?.column.sensor;
  const three = ['x', 'y', 'z'].map((letter) =>
    axes.find(({ name }) => name === (sensor === undefined ? letter : `${sensor}_${letter}`)),
  );
  if (three.some((one) => one === undefined)) return undefined;
  return Math.hypot(...three.map((one) => mean(one!.column.values)));
}

function mean(values: Float64Array): number {
  const facts = factsOf(values);
  if (facts.isWhole) return facts.sum / values.length;
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    sum += values[i];
    count++;
  }
  return sum / count;
}

function isWhole(axes: readonly Candidate[]): boolean {
  return axes.every(({ column }) => column.decimals <= 0);
}
