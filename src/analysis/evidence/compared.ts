import type { AskedChange, Comparison } from '../../statistics/comparison.ts';
import type { Adjusted } from './adjust.ts';
import type { Layout } from './knownRuns.ts';
import type { Measurement } from './measurement.ts';
import type { ComparisonTerms } from './request.ts';
import type { SensorShare } from './sensors.ts';
import type { Strata } from './strata.ts';

/** One condition against another, by the indices of their sides. */
export interface ComparedChange extends AskedChange {
  readonly a: number;
  readonly b: number;
}

/** Everything that rows, warnings and the value itself are made of. */
export interface Compared {
  /** Of each axis. */
  readonly measurements: readonly Measurement[];
  readonly terms: ComparisonTerms;
  readonly layout: Layout;
  readonly strata: Strata | undefined;
  readonly adjusted: Adjusted;
  /** What the runs were recorded with; their errors follow those of the stated powers in what statistics found. */
  readonly sensors: readonly SensorShare[];
  readonly changes: readonly ComparedChange[];
  /** One a change. */
  readonly found: readonly Comparison[];
  /** Levels of all runs, one list a row: axis by axis, band by band. */
  readonly levels: readonly (readonly number[])[];
}
