import type { Estimate } from './estimate.ts';
import type { Statement } from './interval.ts';
import type { Method, Obstacle, RunsKnown, Sequence } from './methods.ts';
import type { Direction, Exclusion, Outcome } from './outcome.ts';

/** The levels of one band (or one other metric): a positive number a run, amplitudes, in any one unit. */
export interface Levels {
  readonly a: readonly number[];
  readonly b: readonly number[];
}

export interface CompareOptions {
  /** Confidence of the intervals, default 0.95; above 0.5 and below 1. */
  readonly confidence?: number | undefined;
  /** A method that the author or the plan named; else the layout of the test decides. */
  readonly method?: 'paired' | 'trend' | undefined;
  /** Place of each run in the order they were made in, its pair and its day, where they are known. */
  readonly order?: RunsKnown<number> | undefined;
  readonly pairs?: RunsKnown<string> | undefined;
  readonly days?: RunsKnown<string> | undefined;
  /** Ratios between 1/(1+margin) and 1+margin count as the same; a fraction, declared before looking. */
  readonly margin?: number | undefined;
  /** Index of the one band named in advance, which is a family of its own. */
  readonly primary?: number | undefined;
  /** How many other rows were stated before these, with which they hold together; default 0. */
  readonly besides?: number | undefined;
}

/** Something the reader must know. `band` is the row's index when it concerns one row only. */
export type Note =
  | { readonly code: 'few-runs'; readonly runsA: number; readonly runsB: number; readonly needed: number }
  | { readonly code: 'one-run-each' }
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
  | { readonly code: 'pairs-not-neighbours' }
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
}

export interface Comparison {
  readonly method: Method | 'one run each' | 'no inference';
  readonly confidence: number;
  readonly runsA: number;
  readonly runsB: number;
  /** How many rows hold together at the confidence, the primary one apart. */
  readonly family: number;
  readonly sequence: Sequence;
  readonly varianceInflation: number | undefined;
  readonly rows: readonly ComparisonRow[];
  readonly notes: readonly Note[];
}
