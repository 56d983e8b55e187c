import type { AskedChange, ChangesOptions } from './comparison.ts';
import type { KnownRun } from './knownRun.ts';
import { chooseForChange, fewestInCell, fewestRuns, type ChosenForChange } from './methods.ts';
import { isFirstOnEveryDay, overDays } from './overDays.ts';
import { overRefits, refitsOf } from './overRefits.ts';
import { sequenceOf } from './sequence.ts';

/**
 * The runs that a change rests on, and where they stand among all: of its stratum, as a study of its own, or all.
 *
 * @param known every run, of whatever condition
 */
export function runsOfChange(
  known: readonly KnownRun[],
  { from, to, stratum }: AskedChange,
): { readonly runs: readonly KnownRun[]; readonly indices: readonly number[] } {
  const isWithin = (run: KnownRun): boolean => stratum === undefined || run.stratum === stratum;
  const isCompared = ({ condition, isReference }: KnownRun): boolean =>
    isReference !== true && (condition === from || condition === to);
  const inStratum = known.flatMap((run, index) => (isWithin(run) ? [{ run, index }] : []));
  const least = stratum === undefined && new Set(known.map((run) => run.stratum)).size > 1 ? fewestInCell : fewestRuns;
  // Another condition helps to tell a drift where it has runs enough for a scatter of its own.
  const kept = inStratum.filter(({ run }) => {
    if (isCompared(run)) return true;
    const same = inStratum.filter(
      ({ run: other }) => other.condition === run.condition && other.stratum === run.stratum,
    );
    return same.length >= (run.isReference === true ? fewestInCell : least);
  });
  return {
    runs: kept.map(({ run }) => (stratum === undefined ? run : { ...run, stratum: '' })),
    indices: kept.map(({ index }) => index),
  };
}

/** The method of a change by the layout of its runs, over refits where the sheet names several, or over days where they stand for other days. */
export function methodOfChange(
  runs: readonly KnownRun[],
  change: AskedChange,
  { method: asked, isOverDays, isPooled }: ChangesOptions,
): ChosenForChange {
  if (isOverDays !== true || change.stratum !== undefined) {
    const isOverRefits = asked === undefined && refitsOf(runs, change)?.areNested === true;
    return isOverRefits ? overRefits(runs, change, isPooled) : chooseForChange(runs, change, asked, isPooled);
  }
  const own = runs.map((_, index) => index);
  const places = runs.flatMap(({ place }) => place ?? []);
  const isKnown = new Set(places).size === runs.length;
  const apart = isKnown && isFirstOnEveryDay(runs, change);
  return {
    method: 'over-days',
    contrast: overDays(runs, change),
    runs: own,
    sequence: apart ? 'apart' : isKnown ? 'interleaved' : sequenceOf(runs, change, false, undefined),
    varianceInflation: undefined,
    obstacle: undefined,
  };
}
