import type { BlockInterval } from './block.ts';
import type { Equivalence } from './equivalence.ts';
import type { Estimate, RatioInterval } from './estimate.ts';
import type { Method, Obstacle } from './methods.ts';
import type { Direction, Exclusion, Outcome } from './outcome.ts';

/** The levels of one band (or one other metric): a positive number a run, amplitudes, in any one unit. */
export interface Levels {
  readonly a: readonly number[];
  readonly b: readonly number[];
  /** Mean square of each block, when there is one run a side (see `blockInterval`). */
  readonly blocksA?: readonly number[] | undefined;
  readonly blocksB?: readonly number[] | undefined;
}

export interface CompareOptions {
  /** Confidence of the interval, default 0.95; above 0.5 and below 1. */
  readonly confidence?: number | undefined;
  /** The method planned, default `welch`. */
  readonly method?: Method | undefined;
  /** Place of each run of A and of B in the day's order. Needed for `trend`, and for pairing other than in the order given. */
  readonly orderA?: readonly number[] | undefined;
  readonly orderB?: readonly number[] | undefined;
  /** Ratios between 1/(1+margin) and 1+margin count as the same; a fraction, declared before looking. */
  readonly margin?: number | undefined;
  /** Index of the one band named in advance, which is not adjusted for the others. */
  readonly primary?: number | undefined;
  /** Whether to work out what the other methods say; default true. */
  readonly sensitivity?: boolean | undefined;
}

/** Something the reader must know. `band` is the row's index when it concerns one row only. */
export type Note =
  | { readonly code: 'few-runs'; readonly runsA: number; readonly runsB: number; readonly needed: number }
  | { readonly code: 'one-run-each' }
  /** Welch's method was used instead of the one asked for. */
  | {
      readonly code: 'method-not-possible';
      readonly method: Method;
      readonly obstacle: Obstacle;
      readonly runsA: number;
      readonly runsB: number;
    }
  /** Mean place of B in the day's order minus that of A, in runs: a drift of 1 % a run looks like a change of so many percent. */
  | { readonly code: 'order-leans'; readonly lag: number }
  /** `perRun` as a fraction, p adjusted for the number of bands; with `trend` the drift is taken out. */
  | {
      readonly code: 'drift-seen';
      readonly band: number;
      readonly perRun: number;
      readonly p: number;
      readonly method: Method;
    }
  | { readonly code: 'pairs-not-neighbours' }
  | { readonly code: 'no-scatter'; readonly band: number }
  | { readonly code: 'not-a-level'; readonly band: number }
  /** `shown`: whether the method used shows a difference, which these others do not; or the other way round. */
  | {
      readonly code: 'methods-disagree';
      readonly band: number;
      readonly methods: readonly Method[];
      readonly shown: boolean;
    };

/** What another method would have said of the same row. */
export interface Sensitivity {
  readonly method: Method;
  readonly ratio: number;
  readonly interval: RatioInterval;
  readonly p: number;
}

/** What a row says about runs in general, and not only about the runs that were made. */
export interface Inference extends Estimate {
  readonly method: Method;
  /** exp(difference): the ratio this method estimates; with `trend`, after the drift is taken out. */
  readonly ratio: number;
  /** Interval of the ratio B/A at the comparison's confidence, for this row alone. */
  readonly interval: RatioInterval;
  /** Bonferroni interval, which holds for all rows of the family at once; the same as `interval` for a family of one. */
  readonly simultaneous: RatioInterval;
  /** Two-sided p of "no change". */
  readonly p: number;
  /** Holm's adjusted p over the bands that are not primary; p itself for the primary band. */
  readonly pAdjusted: number;
  /** The direction shown at the confidence (by the adjusted p), if one is. */
  readonly direction: Direction | undefined;
  readonly equivalence: Equivalence | undefined;
  readonly excluded: Exclusion;
  /** Drift a run as a fraction (0.01 = 1 % a run) and its two-sided p, by the trend method; where the order is given. */
  readonly drift: { readonly perRun: number; readonly p: number } | undefined;
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
  /** One run each: how well these two recordings are known. */
  readonly block: BlockInterval | undefined;
  readonly sensitivity: readonly Sensitivity[];
}

export interface Comparison {
  readonly method: Method | 'one run each' | 'no inference';
  readonly confidence: number;
  readonly runsA: number;
  readonly runsB: number;
  readonly rows: readonly ComparisonRow[];
  readonly notes: readonly Note[];
}
