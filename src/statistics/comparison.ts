import type { Estimate } from './estimate.ts';
import type { Interaction } from './interaction.ts';
import type { Statement } from './interval.ts';
import type { Change } from './knownRun.ts';
import type { Method, Obstacle } from './methods.ts';
import type { Direction, Exclusion, Outcome } from './outcome.ts';
import type { Sequence } from './sequence.ts';

/** The levels of one band (or one other metric): a positive number a run, amplitudes, in any one unit. */
export interface Levels {
  readonly a: readonly number[];
  readonly b: readonly number[];
}

/** How rows are stated, of two conditions or of several. */
export interface StatementOptions {
  /** Confidence of the intervals, default 0.95; above 0.5 and below 1. */
  readonly confidence?: number | undefined;
  /** A method that the author or the plan named; else the layout of the test decides. */
  readonly method?: 'paired' | 'trend' | undefined;
  /** Ratios between 1/(1+margin) and 1+margin count as the same; a fraction, declared before looking. */
  readonly margin?: number | undefined;
  /** How many other rows were stated before these, with which they hold together; default 0. */
  readonly besides?: number | undefined;
}

/** How the changes of several conditions and strata are stated. */
export interface ChangesOptions extends StatementOptions {
  /** Indices of the rows of the one band named in advance (one an axis), which are a family of their own. */
  readonly primary?: readonly number[] | undefined;
  /** Covariates by a stated power of which the levels were brought to one value, and the uncertainty of that power. */
  readonly stated?: readonly StatedPower[] | undefined;
  /** Whether the strata stand for others like them, as days do for other days. */
  readonly isOverDays?: boolean | undefined;
  /** Whether one scatter stands for all runs, as only a plan may say. */
  readonly isPooled?: boolean | undefined;
}

/** A covariate whose power was stated: ln of its value in each run (of a sensor 1 in its runs, else 0), and the standard uncertainty of the power. */
export interface StatedPower {
  readonly logarithms: readonly number[];
  readonly uncertainty: number;
}

/** One condition against another, in one stratum; or over all of them, each with the same weight. */
export interface AskedChange extends Change {
  readonly stratum?: string | undefined;
}

/** Something the reader must know. `band` is the row's index when it concerns one row only. */
export type Note =
  | { readonly code: 'few-runs'; readonly runsA: number; readonly runsB: number; readonly needed: number }
  | { readonly code: 'one-run-each' }
  /** Strata of which one has so few runs of a side that their changes are not put together. */
  | { readonly code: 'few-in-cell'; readonly least: number; readonly needed: number }
  /** Too few runs a side to fit the slope of a covariate. */
  | { readonly code: 'few-for-slope'; readonly least: number; readonly needed: number }
  /** Another method was used than the one asked for. */
  | {
      readonly code: 'method-not-possible';
      readonly method: 'paired' | 'trend';
      readonly instead: Method;
      readonly obstacle: Obstacle;
      readonly runsA: number;
      readonly runsB: number;
    }
  /** The order costs precision: so many times the variance of an interleaved one. */
  | { readonly code: 'order-leans'; readonly varianceInflation: number }
  /** All runs of one condition came before the other's: the verdict is withheld. */
  | { readonly code: 'order-apart'; readonly varianceInflation: number | undefined }
  /** No day has runs of both: the verdict is withheld. */
  | { readonly code: 'other-days' }
  | { readonly code: 'pairs-not-neighbours' }
  /** A side was fitted once: what refitting does is not in the interval. */
  | { readonly code: 'fitted-once'; readonly onceA: boolean; readonly onceB: boolean }
  | { readonly code: 'no-scatter'; readonly band: number }
  | { readonly code: 'not-a-level'; readonly band: number };

/** What a row says about runs in general, and not only about the runs that were made. */
export interface Inference extends Estimate, Statement {
  /** exp(difference): the ratio that the method estimates, after what it takes out. */
  readonly ratio: number;
  /** Two-sided p of "no change" of this row by itself, which decides nothing. */
  readonly pAlone: number;
  /** The direction that is shown, if one is: the interval leaves 1 out. */
  readonly direction: Direction | undefined;
  /** Whether the interval lies within the declared margin; undefined without one. */
  readonly equivalent: boolean | undefined;
  readonly excluded: Exclusion;
}

export interface ComparisonRow {
  readonly primary: boolean;
  /** With how many rows, itself among them, it holds together at the confidence. */
  readonly family: number;
  /** Geometric means over the runs, in the levels' unit; undefined when a level is 0 or not finite. */
  readonly a: number | undefined;
  readonly b: number | undefined;
  /** B/A and the same as a change: percent of amplitude, decibels, percent of mean square. */
  readonly ratio: number | undefined;
  readonly changePercent: number | undefined;
  readonly changeDb: number | undefined;
  readonly powerPercent: number | undefined;
  /** Standard deviation of ln(level) from run to run, pooled over A and B; undefined when each side has one run. */
  readonly spread: number | undefined;
  readonly outcome: Outcome;
  /** Undefined when the data allow none. */
  readonly inference: Inference | undefined;
  /** Of a change over several strata: whether it differs between them; undefined where that can't be told. */
  readonly interaction: RowInteraction | undefined;
}

/** The p of this row by itself, and that for all rows together with which the row holds; neither decides anything. */
export interface RowInteraction extends Interaction {
  readonly pTogether: number;
}

export interface Comparison {
  readonly method: Method | 'one run each' | 'no inference';
  readonly confidence: number;
  readonly runsA: number;
  readonly runsB: number;
  /** How many rows hold together at the confidence, those of the primary band apart. */
  readonly family: number;
  readonly sequence: Sequence;
  readonly varianceInflation: number | undefined;
  readonly rows: readonly ComparisonRow[];
  readonly notes: readonly Note[];
}
