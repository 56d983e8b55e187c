import type { KnownRun } from '../../statistics/knownRun.ts';
import { fewestDays } from '../../statistics/methods.ts';
import type { Run } from '../../values/run.ts';
import { factOf } from '../../values/sheetColumns.ts';
import { dayOf, knownOrder } from './runOrder.ts';
import { measuredIn, type Sides } from './sides.ts';
import type { Strata } from './strata.ts';

/** Every run that is measured, and what its run sheet and the recordings' clocks tell of the layout of the test. */
export interface Layout {
  /** In the order of the sides; their conditions are the sides' indices. */
  readonly runs: readonly KnownRun[];
  /** Places of each side's runs in the order they were made in, where that is known of all. */
  readonly places: readonly (readonly number[])[] | undefined;
  /** Whether the strata are days enough to stand for other days. */
  readonly isOverDays: boolean;
}

/** The condition of a side, as statistics has it. */
export const conditionAt = (side: number): string => String(side);

/**
 * The order of the runs (see `knownOrder`), their pairs by the sheet's column `pair`, and their days by its column `day`
 * or `session`, else by dates on several days. A column counts where it has something for every run of every side. Days
 * that are the strata are no columns to be taken out. The column `refit` tells which time a part was put on, within its
 * condition and stratum.
 *
 * @param covariates those whose slope is fitted, one list a run
 */
export function layoutOf(sides: Sides, strata: Strata | undefined, covariates: readonly (readonly number[])[]): Layout {
  const all = measuredIn(sides).flatMap((side, index) => side.tracks.map(({ run }) => ({ run, side, index })));
  const order = knownOrder(
    all.map(({ run }) => run),
    strata?.of,
  );
  const column = (read: (run: Run) => string | undefined): readonly string[] | undefined =>
    known(
      all.map(({ run }) => run),
      read,
    );
  const pairs = column((run) => cellOf(run, 'pair'));
  const days =
    several(column((run) => cellOf(run, 'day'))) ??
    several(column((run) => cellOf(run, 'session'))) ??
    several(column(dayOf));
  const refits = all.map(({ run }) => cellOf(run, 'refit'));
  const ofDays = strata?.isOfDays === true;
  const runs = all.map(({ side, index }, k): KnownRun => ({
    condition: conditionAt(index),
    isReference: side === sides.reference,
    stratum: strata?.of[k] ?? '',
    place: order?.places[k],
    pair: pairs?.[k],
    day: days?.[k],
    refit: refits[k],
    ...(covariates.length === 0 ? {} : { covariates: covariates.map((one) => one[k]) }),
  }));
  const isOverDays = ofDays && new Set(days).size >= fewestDays;
  return {
    runs: ofDays && !isOverDays ? runs.map((run) => ({ ...run, day: undefined })) : runs,
    places: order && measuredIn(sides).map((side) => order.places.filter((_, k) => all[k].side === side)),
    isOverDays,
  };
}

function cellOf({ sheet }: Run, column: string): string | undefined {
  const cell = factOf(sheet?.facts ?? {}, column);
  return cell === '' ? undefined : cell;
}

function known(runs: readonly Run[], read: (run: Run) => string | undefined): readonly string[] | undefined {
  const cells = runs.flatMap((run) => read(run) ?? []);
  return cells.length === runs.length ? cells : undefined;
}

const several = (column: readonly string[] | undefined): readonly string[] | undefined =>
  new Set(column).size > 1 ? column : undefined;

/**
 * The order of the runs of some sides as letters, of each stratum by itself: `ABBABAAB in each stratum`, `ABBA and BAAB`;
 * undefined where it is not known.
 *
 * @param sides indices of runs, one list a side
 */
export function lettersOf({ runs, places }: Layout, sides: readonly (readonly number[])[]): string | undefined {
  if (places === undefined) return undefined;
  const strata = [...new Set(sides.flat().map((k) => runs[k].stratum))];
  const orders = strata.map((stratum) =>
    orderLetters(sides.map((side) => side.filter((k) => runs[k].stratum === stratum).map((k) => runs[k].place ?? NaN))),
  );
  const distinct = [...new Set(orders)];
  if (strata.length === 1 || distinct.includes(undefined)) return distinct[0];
  return distinct.length === 1 ? `${distinct[0]} in each stratum` : orders.join(' and ');
}

/**
 * The order of sides' runs as letters, A of the first side: `ABBABAAB`; undefined where it is not known.
 *
 * @param places of the runs of each side
 */
export function orderLetters(places: readonly (readonly number[] | undefined)[]): string | undefined {
  const all = places.flatMap((side, index) =>
    (side ?? [NaN]).map((place) => ({ place, letter: String.fromCharCode('A'.charCodeAt(0) + index) })),
  );
  if (all.some(({ place }) => Number.isNaN(place))) return undefined;
  return all
    .sort((one, other) => one.place - other.place)
    .map(({ letter }) => letter)
    .join('');
}
