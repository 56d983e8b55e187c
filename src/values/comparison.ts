import type { Unit } from '../units/unit.ts';
import type { Outcome } from '../statistics/outcome.ts';
import type { Band } from './band.ts';
import type { ExcludedRun } from './excluded.ts';
import type { PlanFollowed } from './plan.ts';
import type { Run } from './run.ts';
import type { SpectrumValue } from './spectrum.ts';

export type { Outcome };

/** B against A in each band: B/A - 1 of the geometric means over runs of the metric's level. */
export interface ComparisonValue {
  readonly kind: 'comparison';
  /** How the interval was made, in words, or why there is none. */
  readonly method: string;
  /** Stable name of the method: `welch`, `paired`, `trend`, `one run each`, `too few runs`. */
  readonly methodCode: string;
  /** 0 to 1. */
  readonly confidence: number;
  readonly channel: string;
  /** In words: `band r.m.s.`, `vibration dose value`. */
  readonly metric: string;
  /** The metric's word in the language: `rms`, `vdv`, `p99_9`, `wk`; `transmissibility` of transfers. */
  readonly metricCode?: string;
  readonly a: ComparisonSide;
  readonly b: ComparisonSide;
  readonly rows: readonly ComparisonRow[];
  /** As a fraction, where one was asked for. */
  readonly margin?: number;
  /** The ratio of the densities bin by bin, where both sides have spectra of one frequency axis and three runs. */
  readonly ratio?: DensityRatio;
  /** The plan it was asked to follow, and where it does not. */
  readonly plan?: PlanFollowed;
  /** Whether the runs that the sheet leaves out were taken in all the same. */
  readonly includesExcluded?: boolean;
  /** Reasons outside the figures that forbid a verdict by any row, each a clause after `because`. */
  readonly guards?: readonly string[];
}

/** B/A of the densities in each bin, with the interval of each bin by itself. */
export interface DensityRatio {
  /** Bin k is at k x spacing, in Hz. */
  readonly spacing: number;
  /** Of mean square, above 0. */
  readonly ratio: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** 0 to 1. */
  readonly confidence: number;
}

export interface ComparisonSide {
  readonly name: string;
  readonly runs: readonly Run[];
  /** The spectra behind the figures, for the overlay. */
  readonly spectrum: SpectrumValue | undefined;
  /** Place of each run in the order they were made in, where it is known of all runs of both sides. */
  readonly places?: readonly number[];
  /** Runs that the run sheet leaves out, taken in or not. */
  readonly excluded?: readonly ExcludedRun[];
}

export interface ComparisonRow {
  readonly band: Band;
  readonly unit: Unit;
  /** Geometric mean over runs of the band r.m.s. */
  readonly a: number;
  readonly b: number;
  /** Each run's band r.m.s., in the order of the side's runs. */
  readonly aRuns: readonly number[];
  readonly bRuns: readonly number[];
  /** B/A - 1 in percent and 20 log10(B/A). */
  readonly changePercent: number;
  readonly changeDb: number;
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  readonly p: number | undefined;
  readonly pAdjusted: number | undefined;
  readonly outcome: Outcome;
  /** The outcome in one sentence for a reader without statistics. */
  readonly sentence: string;
  /** This band's share of A's mean square over all frequencies but 0, in percent. */
  readonly shareOfA: number | undefined;
  /** Named in advance, and so not adjusted for the other bands. */
  readonly primary?: boolean;
  /** Standard deviation of ln(level) from run to run, pooled over both sides: 0.04 is about 4 %. */
  readonly spread?: number;
  /** What the interval rules out, in percent of amplitude. */
  readonly excludes?: RuledOut;
  /** The interval that holds for all rows that are not primary at once (Bonferroni). */
  readonly simultaneous?: PercentInterval;
  /** Of a comparison with a margin: the interval (90 % for a confidence of 95 %) that had to lie within it, and p. */
  readonly equivalence?: PercentInterval & { readonly p: number };
  /** What the other possible methods say of the same figures. */
  readonly sensitivity?: readonly Sensitivity[];
  /** Reasons outside the figures that forbid a verdict by this row, each a clause after `because`. */
  readonly guards?: readonly string[];
}

/** Changes beyond these are ruled out; each at least 0, in percent of amplitude. */
export interface RuledOut {
  readonly reductionPercent: number;
  readonly increasePercent: number;
  readonly eitherWayPercent: number;
}

export interface PercentInterval {
  readonly lowPercent: number;
  readonly highPercent: number;
}

export interface Sensitivity extends PercentInterval {
  /** `welch`, `pooled`, `paired` or `trend`. */
  readonly method: string;
  readonly changePercent: number;
  readonly p: number;
}
