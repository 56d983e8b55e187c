import { fisherFSurvival } from './distributions/fisherF.ts';
import { meansNoScatter } from './estimate.ts';
import type { Change, KnownRun } from './knownRun.ts';
import { dot, orthonormal, without } from './orthonormal.ts';

/** Whether a change differs between strata, as an analysis of variance tells it. */
export interface Interaction {
  /** Mean square of the changes' differences over that of the runs. */
  readonly f: number;
  /** Degrees of freedom: strata less 1, and those of the runs. */
  readonly df: readonly [numerator: number, denominator: number];
  /** P(F > f) where the changes are alike and all runs scatter alike; of this row by itself. */
  readonly p: number;
}

/** The runs that a change rests on, and what beside them is taken out. */
export interface InteractionDesign {
  /** In the order of the levels; those of other conditions and reference runs are left out. */
  readonly runs: readonly KnownRun[];
  readonly change: Change;
  /** Further columns of the model, one number a run each: a drift, an intercept a pair, a covariate. */
  readonly nuisance: readonly (readonly number[])[];
}

/**
 * The F of interaction in the analysis of variance with two factors, condition and stratum (Fisher; Montgomery, Design and
 * Analysis of Experiments, 5.3): by how much less the squares of the residuals are where each stratum has a change of its
 * own, against the residuals left, S - 1 and n - rank degrees of freedom. As the last term of the model it does not depend
 * on the order of the terms, so that unequal cells need no choice of a type of squares.
 *
 * It assumes one scatter for all runs of both conditions in all strata. Where that does not hold it calls changes different
 * too often (simulated in scripts/simulate/RESULTS.md), so nothing is decided by it.
 *
 * @param y ln(level) of each run
 * @returns undefined of one stratum, where a stratum lacks a condition, where the columns leave nothing to tell the changes
 * apart by or no residual, and where the runs do not scatter
 */
export function interactionOf(
  { runs, change, nuisance }: InteractionDesign,
  y: readonly number[],
): Interaction | undefined {
  const own = runs.flatMap((run, index) => (isOf(run, change) ? [index] : []));
  const strata = [...new Set(own.map((index) => runs[index].stratum))];
  const column = (of: (run: KnownRun) => number): number[] => own.map((index) => of(runs[index]));
  const isTo = ({ condition }: KnownRun): number => (condition === change.to ? 1 : 0);
  const alike = [
    column(() => 1),
    column(isTo),
    ...strata.slice(1).map((stratum) => column((run) => (run.stratum === stratum ? 1 : 0))),
    ...nuisance.map((one) => own.map((index) => one[index])),
  ];
  const apart = strata.slice(1).map((stratum) => column((run) => (run.stratum === stratum ? isTo(run) : 0)));
  const basis = orthonormal([...alike, ...apart], own.length);
  const before = orthonormal(alike, own.length).length;
  const df = [basis.length - before, own.length - basis.length] as const;
  if (strata.length < 2 || df[0] < strata.length - 1 || df[1] < 1) return undefined;
  const levels = own.map((index) => y[index]);
  const middle = levels.reduce((sum, level) => sum + level, 0) / levels.length;
  const centred = Float64Array.from(levels, (level) => level - middle);
  const rest = without(centred, basis);
  const ofRuns = dot(rest, rest) / df[1];
  if (meansNoScatter(Math.sqrt(ofRuns))) return undefined;
  const ofChanges = basis.slice(before).reduce((sum, q) => sum + dot(q, centred) ** 2, 0) / df[0];
  const f = ofChanges / ofRuns;
  return { f, df, p: fisherFSurvival(f, df[0], df[1]) };
}

const isOf = ({ condition, isReference }: KnownRun, { from, to }: Change): boolean =>
  isReference !== true && (condition === from || condition === to);
