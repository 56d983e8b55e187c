import type { Message } from '../result/result.ts';
import type { Outcome } from '../statistics/outcome.ts';
import type { Sequence } from '../statistics/sequence.ts';
import type { Unit } from '../units/unit.ts';
import type { Band } from './band.ts';
import { inPercent } from './columns.ts';
import type { ExcludedRun } from './excluded.ts';
import { finite, type Json } from './jsonNumbers.ts';
import { percent } from './number.ts';
import type { Run } from './run.ts';
import type { SpectrumValue } from './spectrum.ts';

/** Columns of the run sheet, and the words for which the runs are compared each by itself. */
export interface ComparedStrata {
  readonly columns: readonly string[];
  readonly names: readonly string[];
}

/** B/A of the densities in each bin, with an interval that holds for all bins together. */
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
  /** The stratum of each run, where there are strata. */
  readonly strata?: readonly string[];
  /** Runs that the run sheet leaves out, taken in or not. */
  readonly excluded?: readonly ExcludedRun[];
}

export interface ComparisonRow {
  readonly band: Band;
  /** Names of the sides: A and B of this row. */
  readonly baseline: string;
  readonly condition: string;
  /** The stratum that it is of; undefined over all of them, and where there are none. */
  readonly stratum?: string;
  readonly channel: string;
  /** With how many rows, itself among them, it holds together at the confidence. */
  readonly family: number;
  /** As of the comparison; of this row's sides. */
  readonly methodCode: string;
  readonly sequence?: Sequence;
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
  /** The interval that everything said of this row rests on: for all rows together, the primary one by itself. */
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  /** Of ln(B/A) and its degrees of freedom, where the data allow an inference. */
  readonly standardError?: number;
  readonly df?: number;
  /** Of the row alone, which decides nothing; and that of the interval, at most 1 - confidence where it leaves out 0. */
  readonly p: number | undefined;
  readonly pAdjusted: number | undefined;
  readonly outcome: Outcome;
  /** The outcome in one sentence for a reader without statistics. */
  readonly sentence: string;
  /** This band's share of A's mean square over all frequencies but 0, in percent. */
  readonly shareOfA: number | undefined;
  /** The band that the question is about, which stands by itself. */
  readonly primary?: boolean;
  /** Standard deviation of ln(level) from run to run, pooled over both sides, without what the method takes out: 0.04 is about 4 %. */
  readonly spread?: number;
  /** What the interval rules out, in percent of amplitude. */
  readonly excludes?: RuledOut;
  /** Of a comparison with a margin: whether the interval lies within it. */
  readonly equivalent?: boolean;
  /** What the sensors' calibration adds to the standard error, where the sides were recorded with different ones. */
  readonly sensors?: readonly SensorError[];
  /** Of a row over all strata: whether the change differs between them. */
  readonly interaction?: RowInteraction;
  /** Reasons outside the figures that forbid a verdict by this row; the message of each is a clause. */
  readonly guards?: readonly Message[];
}

/** The F of differences between strata, which assumes that all runs scatter alike; no outcome rests on it. */
export interface RowInteraction {
  readonly f: number;
  /** Degrees of freedom: strata less 1, and those of the runs. */
  readonly df: readonly [numerator: number, denominator: number];
  /** Of the row alone; and for all rows together with which the row holds. */
  readonly p: number;
  readonly pAdjusted: number;
  /** In one sentence that names what it assumes. */
  readonly sentence: string;
}

/** What the sensitivity of a sensor leaves in a change, of sides that were recorded with different ones. */
export interface SensorError {
  readonly sensor: string;
  readonly axis: string;
  /** Relative standard uncertainty of the sensitivity. */
  readonly relative: number;
  /** What of it is in ln(B/A), with its sign: less where the sensor was on both sides. */
  readonly size: number;
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

/** A sensor's uncertainty, and what of it is in the change. */
export const sensorJson = ({ sensor, axis, relative, size }: SensorError): Json => ({
  sensor,
  axis,
  uncertainty_percent: 100 * relative,
  in_change_percent: 100 * size,
});

/** The interval beside the margin that it is held against; null without one. */
export const heldAgainst = (
  { equivalent, lowPercent, highPercent }: ComparisonRow,
  { margin }: { readonly margin?: number },
): Json =>
  equivalent === undefined
    ? null
    : {
        margin_percent: inPercent(margin) ?? null,
        low_percent: finite(lowPercent),
        high_percent: finite(highPercent),
        within: equivalent,
      };

/** The smallest changes that the data rule out; null where none is. */
export const ruledOut = (excludes: RuledOut | undefined): Json =>
  excludes === undefined
    ? null
    : {
        reduction_percent: finite(excludes.reductionPercent),
        increase_percent: finite(excludes.increasePercent),
        either_way_percent: finite(excludes.eitherWayPercent),
      };

/** lower, higher, the same within ±5 %, not shown. */
export const outcomeWord = (outcome: Outcome, { margin = 0 }: { readonly margin?: number }): string =>
  outcome === 'equivalent' ? `the same within ±${percent(margin)}` : outcome;

/** Changes in percent that count as none within a margin, a fraction: by the same factor either way, so that ±5 % is −4.76 to +5 %. */
export const changesWithin = (margin: number): { readonly from: number; readonly to: number } => ({
  from: -100 * (margin / (1 + margin)),
  to: 100 * margin,
});
