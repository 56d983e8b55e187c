import { sheetDate } from '../../readers/sheet.ts';
import { factOf } from '../../values/sheetColumns.ts';
import type { Run } from '../../values/run.ts';

/** Places of runs in the order they were made in, and where that is known from. */
export interface KnownOrder {
  readonly places: readonly number[];
  readonly from: 'the run sheet' | 'the dates in the run sheet' | 'the recordings’ clocks';
}

/**
 * By the sheet's order, else its dates, else the clocks of files that have a date; undefined where none of them tells
 * all runs apart. Dates and clocks are turned into places from 1, so that a drift is one a run.
 *
 * @param runs of all sides
 * @param strata of each run, where there are some: each may have an order of its own
 */
export function knownOrder(runs: readonly Run[], strata?: readonly string[]): KnownOrder | undefined {
  const by = (
    read: (run: Run) => number | undefined,
    from: KnownOrder['from'],
    ranked: boolean,
  ): KnownOrder | undefined => {
    const values = runs.map(read);
    const keys = values.map((value, k) => `${value} ${strata?.[k] ?? ''}`);
    if (values.some((value) => value === undefined) || new Set(keys).size < values.length) return undefined;
    const known = values as number[];
    const sorted = [...known].sort((x, y) => x - y);
    return { places: ranked ? known.map((value) => sorted.indexOf(value) + 1) : known, from };
  };
  return (
    by(({ sheet }) => sheet?.order, 'the run sheet', false) ??
    by(({ sheet }) => sheetDate(factOf(sheet?.facts ?? {}, 'date') ?? ''), 'the dates in the run sheet', true) ??
    by(datedStart, 'the recordings’ clocks', true)
  );
}

const secondsOfDay = 86_400;

/** The day of a run's date in its sheet, as a number of days. */
export function dayOf({ sheet }: Run): string | undefined {
  const date = sheetDate(factOf(sheet?.facts ?? {}, 'date') ?? '');
  return date === undefined ? undefined : String(Math.floor(date / secondsOfDay));
}

/** 1990 in s since 1970: no clock that counts from midnight, or from when the logger was switched on, comes so far. */
const earliestDate = 631_152_000;

/**
 * When a run was made by its own clock, in s since 1970, where its stamps or the lines above them have a date; a clock
 * that counts from when the logger was switched on says nothing about other files.
 */
export const datedStart = ({ epoch }: Run): number | undefined =>
  epoch !== undefined && epoch >= earliestDate ? epoch : undefined;
