import { success, type Result } from '../result/result.ts';
import { straightened } from './clock/astray.ts';
import {
  isInDoubt,
  otherScale,
  possibleScales,
  scaleName,
  spreadsheetEpoch,
  styleOf,
  type TimeScale,
} from './clock/scale.ts';
import { stepShape, type StepShape } from './clock/steps.ts';
import { factsOf } from './columnFacts.ts';
import { unwrapped } from './clock/wrap.ts';
import { clockInDigits } from './fractions.ts';
import { refuse } from './messages.ts';
import { clockParts } from './clockParts.ts';
import type { ClockParts, ReadOptions } from './recording.ts';
import type { AssumedUnit, UnitReading } from './messages/time.ts';
import { columnName, type NumberColumn, type StampColumn } from './table.ts';
import { zoneMinutes } from './text/stamp.ts';
import { withoutSentAgain, type TimeCandidate } from './timeCandidates.ts';
import { tenTo } from '../numbers/power.ts';
import { logOf } from '../numbers/logarithm.ts';

/** The column that tells when samples were taken. */
export interface TimeRole {
  readonly index: number;
  /** Seconds on the column's own clock less `origin`, in row order. */
  readonly seconds: Float64Array;
  readonly origin: number;
  readonly style: string;
  /** One unit of the last digit in s. */
  readonly resolution: number;
  /** Seconds from 1970 of second 0 of that clock, or undefined where the day is not known. */
  readonly base: number | undefined;
  readonly zone: string | undefined;
  /** What nothing but its plausibility settles, where that is so. */
  readonly assumed?: AssumedUnit;
  /** Rows whose stamps went astray and were put between their neighbours', and the first of them. */
  readonly astray?: { readonly rows: number; readonly first: number } | undefined;
}

/**
 * Reads a column as time, or gives undefined where it is none at the rate that is stated. Refuses a column whose numbers
 * could be times in several units, or in none.
 * @param stated the rate in Hz that the file itself states
 */
export function readTime(
  path: string,
  { index, column, scale, byName }: TimeCandidate,
  options: ReadOptions,
  stated: number | undefined,
): Result<TimeRole | undefined> {
  if (column.kind === 'stamp') {
    const parts = clockParts(path, index, column, stated ?? options.rate, options.clock);
    if (!parts.ok) return parts;
    return success(parts.value === 'none' ? undefined : ofStamps(index, column, parts.value));
  }
  const digits = scale === undefined && byName ? clockInDigits(column.values) : undefined;
  if (digits !== undefined) {
    // Less than a second goes by at a full minute, so that there are decimals.
    const resolution = tenTo(-column.decimals);
    return success({
      index,
      seconds: digits,
      origin: 0,
      style: 'hhmmss',
      resolution,
      base: undefined,
      zone: undefined,
    });
  }
  const { values } = column;
  const fresh = withoutSentAgain(values);
  const shape = stepShape(fresh);
  const step = typicalStep(fresh, shape);
  const isThere = (value: number): boolean => !Number.isNaN(value);
  const [first, last] = [values.find(isThere) ?? NaN, values.findLast(isThere) ?? NaN];
  const span = last - first;
  const all =
    scale === undefined
      ? possibleScales(first, step, span, column.decimals <= 0, options.rate, byName)
      : [{ scale, style: styleOf(scale, first) }];
  const fitting = all.filter((one) => stated !== undefined && Math.abs(logOf(stated * step * one.scale)) < 0.3);
  const name = columnName(column, index);
  const isUnsure = scale === undefined && options.rate === undefined && fitting.length !== 1;
  if (isUnsure && shape.zero === 0 && isCount(values)) return refuse('time-or-counter', { path, column: name });
  const possible = fitting.length === 1 ? fitting : all;
  if (possible.length === 1) {
    const role = ofNumbers(index, column, possible[0], shape);
    const isAssumed =
      scale === undefined && options.rate === undefined && fitting.length === 0 && role.base === undefined;
    const isTold = isAssumed && isInDoubt(first, step, span, possible[0].scale);
    return success(isTold ? { ...role, assumed: assumedUnit(name, step, span, possible[0].scale) } : role);
  }
  if (possible.length > 1) {
    const readings = possible.map((one) => ({ unit: scaleName(one.scale), rate: 1 / (step * one.scale) }));
    return refuse('time-unit', { path, column: name, readings });
  }
  // With the rate stated the recording can do without.
  if (!byName || (options.rate !== undefined && options.time === undefined)) return success(undefined);
  return refuse('time-unit', { path, column: name, step, rate: options.rate });
}

function assumedUnit(column: string, step: number, span: number, scale: number): AssumedUnit {
  const reading = (size: number): UnitReading => ({
    unit: scaleName(size),
    rate: 1 / (step * size),
    length: span * size,
  });
  return { column, taken: reading(scale), other: reading(otherScale(step, scale)) };
}

function ofStamps(index: number, column: StampColumn, parts: ClockParts | 'other'): TimeRole {
  const { base } = column;
  // Two parts were read as minutes and seconds.
  const { values, style, resolution } =
    parts === 'hh:mm'
      ? { values: column.values.map((value) => 60 * value), style: 'clock h:m', resolution: 60 }
      : { values: column.values, style: column.style, resolution: column.quantum };
  const headed = column.zone === undefined ? zoneInHeader(column.header) : undefined;
  const { seconds, astray } = onTrack(values);
  return {
    index,
    seconds: base === undefined ? overMidnight(seconds) : seconds,
    astray,
    origin: 0,
    style,
    resolution,
    base: base === undefined ? undefined : base - 60 * (headed?.minutes ?? 0),
    zone: column.zone ?? headed?.text,
  };
}

function ofNumbers(index: number, column: NumberColumn, { scale, style }: TimeScale, shape: StepShape): TimeRole {
  const { values, decimals } = column;
  const base = style.startsWith('epoch') ? 0 : style === 'days' ? spreadsheetEpoch : undefined;
  // So far from 1970 a double no longer holds microseconds: count from the first stamp.
  const first = base === undefined ? undefined : values.find((value) => !Number.isNaN(value));
  const near = first === undefined ? values : values.map((value) => value - first);
  const { seconds, astray } = onTrack(
    withinDates(
      scaled(
        unwrapped(near, () => shape.forwardMedian),
        scale,
      ),
    ),
  );
  return {
    index,
    seconds,
    astray,
    origin: first === undefined ? 0 : first * scale,
    style,
    resolution: tenTo(-decimals) * scale,
    base,
    zone: base === 0 ? '+00:00' : undefined,
  };
}

function onTrack(seconds: Float64Array): Pick<TimeRole, 'seconds' | 'astray'> {
  const straight = straightened(seconds);
  return straight === undefined
    ? { seconds }
    : { seconds: straight.seconds, astray: { rows: straight.rows, first: straight.first } };
}

/** The step between samples, in the column's own unit. */
function typicalStep(values: Float64Array, shape: StepShape): number {
  const { bounds, zero, count } = shape;
  const span = values[values.length - 1] - values[0];
  const mean = Math.max(span / (values.length - 1), 0) || shape.forwardMedian;
  const isShortest = zero > 0.05 * count || (bounds !== undefined && mean <= bounds.least * 1.5);
  return isShortest ? mean : Math.min(mean, shape.forwardMedian * 1.5);
}

const isCount = (values: Float64Array): boolean => values.every((value, i) => i === 0 || value - values[i - 1] === 1);

function scaled(values: Float64Array, scale: number): Float64Array {
  // Division keeps 0.001 x 250 at 0.25 where a product would not.
  const divisor = Math.round(1 / scale);
  if (divisor === 1) return values;
  return divisor > 0 ? values.map((value) => value / divisor) : values.map((value) => value * scale);
}

/**
 * Seconds with nothing in place of a number that no clock can show: beyond the dates of ECMAScript (ECMA-262, 21.4.1.1).
 * Where most are, the column is kept as it is, for it is no clock at all.
 */
function withinDates(seconds: Float64Array): Float64Array {
  const farthest = 8.64e12;
  const { low, high } = factsOf(seconds);
  if (low >= -farthest && high <= farthest) return seconds;
  let beyond = 0;
  // Of each of millions of stamps: a loop without calls.
  for (let i = 0; i < seconds.length; i++) if (seconds[i] > farthest || seconds[i] < -farthest) beyond++;
  return beyond === 0 || 2 * beyond > seconds.length
    ? seconds
    : seconds.map((value) => (Math.abs(value) > farthest ? NaN : value));
}

function overMidnight(values: Float64Array): Float64Array {
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
  const text = /(?:UTC|GMT)?\s?[+-]\d{2}:?\d{2}|UTC|GMT/i.exec(header ?? '')?.[0].trim() ?? '';
  const minutes = zoneMinutes(text);
  return minutes === undefined ? undefined : { text, minutes };
}
