import { grouped } from '../numbers/grouped.ts';
import type { GroupContrast } from './contrast.ts';
import type { Change, KnownRun } from './knownRun.ts';
import { chooseForChange, fewestInCell, fewestRuns, type ChosenForChange } from './methods.ts';
import { sequenceOf } from './sequence.ts';

/** Runs of one refit of one condition: a part off and on again. */
interface Refit {
  /** Their means. */
  readonly as: KnownRun;
  /** Where they stand among all runs. */
  readonly indices: readonly number[];
}

/** How the sheet's refits lie under the runs of two conditions. */
export interface RefitsKnown {
  /** Whether every side has several refits in each of its strata, of which some have several runs. */
  readonly areNested: boolean;
  /** Conditions that were fitted once in a stratum, though several runs were made of it. */
  readonly fittedOnce: readonly string[];
}

/** @param runs all that are known; undefined where the refit of a run of either condition is not */
export function refitsOf(runs: readonly KnownRun[], change: Change): RefitsKnown | undefined {
  const own = runs.filter((run) => isOf(run, change));
  if (own.length === 0 || own.some(({ refit }) => refit === undefined)) return undefined;
  const cells = grouped(own, ({ condition, stratum }) => `${condition}\u0000${stratum}`);
  const counts = cells.map((cell) => new Set(cell.map(({ refit }) => refit)).size);
  const once = cells.filter((cell, k) => counts[k] < fewestInCell && cell.length > 1);
  const fittedOnce = [...new Set(once.map(([{ condition }]) => condition))];
  const refits = counts.reduce((sum, count) => sum + count, 0);
  return { areNested: Math.min(...counts) >= fewestInCell && refits < own.length, fittedOnce };
}

/**
 * The change by the means of the refits, which are what scatters: runs within one refit say nothing of the next. Runs nested
 * in refits nested in conditions, as Montgomery, Design and Analysis of Experiments, 14.1 (with equal numbers of runs the F
 * of conditions against refits within them is the square of this t); with a scatter of its own for each condition. From 3
 * refits a side on with a known order a drift is taken out over the refits' mean places.
 *
 * @param runs of which every one of either condition has a refit
 * @param isPooled whether one scatter stands for all refits
 */
export function overRefits(runs: readonly KnownRun[], change: Change, isPooled = false): ChosenForChange {
  const refits = refitsAmong(runs);
  const own = refits.filter(({ as }) => isOf(as, change));
  const sizes = ['from', 'to'].map(
    (end) => own.filter(({ as }) => as.condition === change[end as 'from' | 'to']).length,
  );
  const units = refits.map(({ as }) => as);
  const isOrdered = Math.min(...sizes) >= fewestRuns;
  const placeless = units.map((unit) => ({ ...unit, place: undefined }));
  const chosen = chooseForChange(isOrdered ? units : placeless, change, undefined, isPooled);
  const isPlaced = units.every(({ place }) => place !== undefined);
  return {
    ...chosen,
    method: chosen.method === 'trend' || chosen.method === 'curve' ? 'refits-trend' : 'refits',
    sequence: isOrdered ? chosen.sequence : sequenceOf(units, change, isPlaced, 1),
    contrast:
      chosen.contrast &&
      overRuns(
        chosen.contrast,
        chosen.runs.map((unit) => refits[unit].indices.length),
      ),
    runs: chosen.runs.flatMap((unit) => refits[unit].indices),
  };
}

const isOf = ({ condition, isReference }: KnownRun, { from, to }: Change): boolean =>
  isReference !== true && (condition === from || condition === to);

/** The refits of all conditions; a run whose refit is not known stands for itself. */
function refitsAmong(runs: readonly KnownRun[]): Refit[] {
  const places = runs.map((_, index) => index);
  const groups = grouped(places, (index) => {
    const { condition, stratum, refit, isReference } = runs[index];
    return refit === undefined || isReference === true ? index : [condition, stratum, refit].join('\u0000');
  });
  return groups.map((indices) => ({ as: meanOf(indices.map((index) => runs[index])), indices }));
}

function meanOf(runs: readonly KnownRun[]): KnownRun {
  const { condition, stratum, isReference, covariates } = runs[0];
  const mean = (of: (run: KnownRun) => number): number => runs.reduce((sum, run) => sum + of(run), 0) / runs.length;
  const isPlaced = runs.every(({ place }) => place !== undefined);
  return {
    ...{ condition, stratum },
    ...(isReference === undefined ? {} : { isReference }),
    place: isPlaced ? mean(({ place = NaN }) => place) : undefined,
    ...(covariates === undefined
      ? {}
      : { covariates: covariates.map((_, k) => mean((run) => run.covariates?.[k] ?? NaN)) }),
  };
}

/** A contrast of means as one of the runs, which stand together. */
function overRuns(of: GroupContrast, sizes: readonly number[]): GroupContrast {
  const starts = sizes.map((_, k) => sizes.slice(0, k).reduce((sum, size) => sum + size, 0));
  return {
    weights: Float64Array.from(sizes.flatMap((size, k) => Array.from({ length: size }, () => of.weights[k] / size))),
    varianceInflation: of.varianceInflation,
    estimate: (y) =>
      of.estimate(
        sizes.map((size, k) => y.slice(starts[k], starts[k] + size).reduce((sum, one) => sum + one, 0) / size),
      ),
  };
}
