import { isEpoch } from './clock/scale.ts';
import { factsOf } from './columnFacts.ts';
import { stepCounts } from './clock/steps.ts';
import type { NumberColumn, StampColumn } from './table.ts';

interface TimeColumn {
  readonly index: number;
  readonly column: NumberColumn | StampColumn;
  /** Seconds of one unit, where it is stated. */
  readonly scale: number | undefined;
}

/** Whole seconds in one column and the part of the second in another, as one time. */
export interface Joined {
  readonly whole: number;
  readonly part: number;
  readonly column: StampColumn;
}

/**
 * The column of whole seconds whose fraction another column holds (`sec, nsec`; `Time, Millis`): the fraction begins
 * anew where the seconds go on, and both together run forward.
 */
export function joinFractions(times: readonly TimeColumn[]): Joined | undefined {
  for (const part of times) {
    const { column, scale } = part;
    if (column.kind !== 'number' || scale === undefined || !(scale < 1) || column.decimals > 0) continue;
    const size = Math.round(1 / scale);
    if (!isFraction(column.values, size)) continue;
    for (const whole of times) {
      if (whole === part || !isWhole(whole)) continue;
      const [first] = whole.column.values;
      const values = whole.column.values.map((second, i) => second - first + column.values[i] / size);
      const { count, backward } = stepCounts(values);
      if (backward > 0.01 * count) continue;
      return { whole: whole.index, part: part.index, column: asStamps(whole.column, values, first, scale) };
    }
  }
  return undefined;
}

function isFraction(values: Float64Array, size: number): boolean {
  return stepCounts(values).backward > 0 && values.every((value) => !(value < 0) && !(value >= size));
}

const isWhole = ({ column, scale }: TimeColumn): boolean =>
  column.kind === 'stamp' ? column.clock && column.quantum === 1 : column.decimals <= 0 && (scale ?? 1) === 1;

function asStamps(
  column: NumberColumn | StampColumn,
  values: Float64Array,
  first: number,
  quantum: number,
): StampColumn {
  if (column.kind === 'stamp') return { ...column, values: values.map((value) => value + first), quantum };
  const dated = isEpoch(first);
  return {
    kind: 'stamp',
    header: column.header,
    values,
    base: dated ? first : undefined,
    clock: true,
    style: dated ? 'epoch s with a fraction beside it' : 's with a fraction beside it',
    zone: dated ? '+00:00' : undefined,
    quantum,
    doubtful: false,
  };
}

/** By how much the digits of a clock jump at least at a full minute. */
const shortestJump = 40;

/**
 * Seconds of a clock that is written as one number, such as 142259.5 for 14:22:59.5, or undefined where the numbers are
 * none: only at a full minute does it show, where the digits jump while less than a second goes by.
 */
export function clockInDigits(values: Float64Array): Float64Array | undefined {
  // A full minute is such a jump.
  if (factsOf(values).mostStep <= shortestJump) return undefined;
  let jumps = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (!(value >= 0 && value < 240_000) || value % 100 >= 60 || Math.floor(value / 100) % 100 >= 60) return undefined;
    if (i > 0 && value - values[i - 1] > shortestJump && inSeconds(value) - inSeconds(values[i - 1]) < 1) jumps++;
  }
  const minuteOf = (value: number): number => Math.floor(inSeconds(value) / 60);
  const minutes = minuteOf(values[values.length - 1]) - minuteOf(values[0]);
  return jumps === 0 || jumps < 0.5 * minutes ? undefined : values.map(inSeconds);
}

/** Seconds of the day of a clock's digits. */
const inSeconds = (value: number): number =>
  Math.floor(value / 10_000) * 3600 + (Math.floor(value / 100) % 100) * 60 + (value % 100);
