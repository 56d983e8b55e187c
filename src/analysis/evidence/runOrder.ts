import { sheetDate } from '../../readers/sheet.ts';
import { factOf } from '../recordings/sheetFile.ts';
import type { Run } from '../../values/run.ts';

/** Places of the runs of both sides in the order they were made in, and where that is known from. */
export interface KnownOrder {
  readonly a: readonly number[];
  readonly b: readonly number[];
  readonly from: 'the run sheet' | 'the dates in the run sheet' | 'the recordings’ clocks';
}

/**
 * By the sheet's order, else its dates, else the clocks of files that have a date; undefined where none of them tells
 * all runs apart. Dates and clocks are turned into places from 1, so that a drift is one a run.
 *
 * @param a, b the runs of either side
 */
export function knownOrder(a: readonly Run[], b: readonly Run[]): KnownOrder | undefined {
  const by = (
    read: (run: Run) => number | undefined,
    from: KnownOrder['from'],
    ranked: boolean,
  ): KnownOrder | undefined => {
    const values = [...a, ...b].map(read);
    if (values.some((value) => value === undefined) || new Set(values).size < values.length) return undefined;
    const known = values as number[];
    const sorted = [...known].sort((x, y) => x - y);
    const places = ranked ? known.map((value) => sorted.indexOf(value) + 1) : known;
    return { a: places.slice(0, a.length), b: places.slice(a.length), from };
  };
  return (
    by(({ sheet }) => sheet?.order, 'the run sheet', false) ??
    by(({ sheet }) => sheetDate(factOf(sheet?.facts ?? {}, 'date') ?? ''), 'the dates in the run sheet', true) ??
    by(dated, 'the recordings’ clocks', true)
  );
}

/** A clock that counts from when the logger was switched on says nothing about other files. */
function dated({ epoch, layout }: Run): number | undefined {
  const style = layout.time?.style ?? '';
  return /^(epoch|iso|date)/.test(style) ? epoch : undefined;
}
