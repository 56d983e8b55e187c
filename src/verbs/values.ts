import type { Finding, Layout, Stretch } from '../readers/recording.ts';
import type { Quantity, Unit } from '../units/unit.ts';

import type { ExcludedRun } from './values/excluded.ts';
import type { ExposureValue } from './values/exposure.ts';
import type { PeaksValue } from './values/peaks.ts';
import type { OrderValue, PlanFollowed, PlanValue, RepeatsValue, SheetValue } from './values/planning.ts';
import type { ProfileValue } from './values/profile.ts';
import type { RunningValue } from './values/running.ts';
import type { SpectrogramValue } from './values/spectrogram.ts';
import type { TransferValue } from './values/transfer.ts';
import type { VerdictValue } from './values/verdict.ts';

/**
 * The values of the language. All are immutable, say their unit and their runs, and are plain data: they cross
 * from the worker, and one JSON form of each stands in `json/`. Arrays are shared, never copied to be safe.
 */
export type Value =
  | QuantityValue
  | TextValue
  | RunsValue
  | WindowValue
  | SpectrumValue
  | LevelsValue
  | BandsValue
  | ComparisonValue
  | VerdictValue
  | FindingsValue
  | PeaksValue
  | TransferValue
  | SpectrogramValue
  | RunningValue
  | ProfileValue
  | RepeatsValue
  | OrderValue
  | SheetValue
  | PlanValue
  | TableValue
  | ChartValue;

export interface QuantityValue {
  readonly kind: 'quantity';
  readonly quantity: Quantity;
}

export interface TextValue {
  readonly kind: 'text';
  readonly text: string;
}

/** One or more recordings, or stretches of them. */
export interface RunsValue {
  readonly kind: 'runs';
  /** What the set is called in legends: the `label` of `load`, else the name it was bound to. */
  readonly set: string | undefined;
  readonly runs: readonly Run[];
  /** Runs that the run sheet leaves out. */
  readonly excluded?: readonly ExcludedRun[];
}

export interface Run {
  /** What this run is called in legends and tables; unique within its set. */
  readonly label: string;
  readonly file: RawFile;
  /** Hz. */
  readonly rate: number;
  /** All of one length. */
  readonly channels: readonly Channel[];
  /** Unbroken stretches; indices into the channels' samples, `start` in s on the recording's time axis. */
  readonly stretches: readonly Stretch[];
  /** Start of this run within its recording in s. */
  readonly start: number;
  /** Time of the recording's first sample on the file's own clock in s, where it has one. */
  readonly epoch?: number;
  /** Times in s where sampling is too uneven for a rate to mean anything: such a run must be resampled first. */
  readonly times?: Float64Array;
  /** The run this one was trimmed from, so that a plot can show where the stretch lies. */
  readonly whole?: Run;
  /** What was done to the samples, in order, in words for the methods section: `highpass 2 Hz order 4`. */
  readonly history: readonly string[];
  /** Findings that travel with every later result of the run. */
  readonly findings: readonly Finding[];
  readonly layout: Layout;
  /** From a run sheet, if there is one. */
  readonly sheet?: RunFacts;
}

/** What a run sheet says of one run. */
export interface RunFacts {
  readonly condition?: string;
  readonly order?: number;
  /** Why the sheet leaves the run out, where it does. */
  readonly excluded?: string;
  /** All cells of its row, by the column's header: `speed (m/s)`. */
  readonly facts: Readonly<Record<string, string>>;
}

export interface RawFile {
  /** Relative to the notebook's folder, with `/`. */
  readonly path: string;
  readonly bytes: number;
  /** Lower-case hex. */
  readonly sha256: string;
}

export interface Channel {
  readonly name: string;
  /** The header's text in the file, by which the channel may be named too. */
  readonly header?: string;
  readonly unit: Unit;
  /** Where the unit came from, in words: `the header`, `the option`, `the length of the mean vector`. */
  readonly unitFrom: string;
  readonly samples: Float64Array;
  /** Frequency weighting that was applied, such as `Wk`. */
  readonly weighting?: string;
  /** Whether the mean still holds gravity; false once a mean or a high-pass has been taken out. */
  readonly steady: boolean;
}

export type WindowName = 'hann' | 'hamming' | 'blackman' | 'blackman-harris' | 'flattop' | 'rectangular';

export interface WindowValue {
  readonly kind: 'window';
  readonly shape: WindowName;
  /** s */
  readonly length: number;
  /** 0 to below 1. */
  readonly overlap: number;
}

/** One-sided Welch spectra, one per run and channel, all with the same frequency spacing within each entry. */
export interface SpectrumValue {
  readonly kind: 'spectrum';
  readonly form: 'psd' | 'amplitude';
  readonly set: string | undefined;
  readonly window: WindowValue;
  /** Of the confidence limits, 0 to 1. */
  readonly confidence: number;
  readonly entries: readonly SpectrumEntry[];
  /** Mean over runs per channel (power mean), where the runs share one frequency axis. */
  readonly means: readonly SpectrumMean[];
  readonly excluded?: readonly ExcludedRun[];
  /** Where frequencies were divided by a speed: then `spacing` and densities are over this, and no longer in Hz. */
  readonly axis?: SpectrumAxis;
}

/** What a spectrum is over, when that is not frequency. */
export interface SpectrumAxis {
  readonly name: 'cycles per metre' | 'order';
  /** `1/m`, or empty for orders. */
  readonly unit: Unit;
  /** The speed or turning rate, in words: `1.2 m/s`. */
  readonly by: string;
}

export interface SpectrumEntry {
  readonly run: Run;
  readonly channel: Channel;
  /** Unit of `level`: `g^2/Hz` for a density, `g` for amplitude. */
  readonly unit: Unit;
  /** Bin spacing in Hz: rate / segmentSamples, exactly. Bin k is at k x spacing. */
  readonly spacing: number;
  readonly segments: number;
  readonly segmentSamples: number;
  /** Equivalent noise bandwidth in Hz. */
  readonly noiseBandwidth: number;
  /** Effective number of independent averages. */
  readonly averages: number;
  readonly level: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** The density whatever the form, so that bands can be taken of an amplitude spectrum too. */
  readonly density: Float64Array;
}

export interface SpectrumMean {
  readonly channel: string;
  readonly unit: Unit;
  readonly spacing: number;
  readonly level: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

export interface LevelsValue {
  readonly kind: 'levels';
  readonly set: string | undefined;
  readonly rows: readonly LevelsRow[];
  readonly excluded?: readonly ExcludedRun[];
  /** Published ranges as context, for levels of weighted acceleration. */
  readonly exposure?: ExposureValue;
}

/** In the channel's own unit unless said. */
export interface LevelsRow {
  readonly run: Run;
  readonly channel: Channel;
  readonly mean: number;
  /** Mean removed. */
  readonly rms: number;
  /** Mean kept. */
  readonly totalRms: number;
  /** Largest |x - mean|. */
  readonly peak: number;
  readonly peakToPeak: number;
  readonly crestFactor: number | undefined;
  /** 3 for a Gaussian. */
  readonly kurtosis: number | undefined;
  readonly skewness: number | undefined;
  /** m/s^1.75; undefined when the channel is no acceleration. */
  readonly vdv: number | undefined;
  /** Of |x - mean|. */
  readonly percentile99: number;
  readonly percentile999: number;
  /** Largest running r.m.s. over 1 s, and the end of that second in s from the run's start; of runs of 1 s or more. */
  readonly mtvv: number | undefined;
  readonly mtvvAt: number | undefined;
  /** s */
  readonly duration: number;
}

export interface Band {
  /** Hz */
  readonly from: number;
  readonly to: number;
  /** Nominal mid-band of a fractional-octave band, such as `31.5`. */
  readonly label?: string;
}

export interface BandsValue {
  readonly kind: 'bands';
  readonly set: string | undefined;
  readonly bands: readonly Band[];
  readonly rows: readonly BandRow[];
  readonly excluded?: readonly ExcludedRun[];
}

export interface BandRow {
  readonly run: Run;
  readonly channel: Channel;
  readonly band: Band;
  readonly unit: Unit;
  /** NaN in a band of an octave that holds too few bins for a figure; a warning says so, and JSON has null. */
  readonly rms: number;
}

export type Outcome = 'lower' | 'higher' | 'equivalent' | 'unclear';

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

export interface FindingsValue {
  readonly kind: 'findings';
  readonly rows: readonly { readonly run: Run; readonly finding: Finding }[];
}

export interface TableColumn {
  readonly name: string;
  readonly unit: string;
}

export interface TableValue {
  readonly kind: 'table';
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly (number | string | null)[])[];
}

/** What a `plot` was asked to show; how it is drawn is the charts' business. */
export interface ChartValue {
  readonly kind: 'chart';
  readonly subjects: readonly ChartSubject[];
  /** Hz or s, whichever the subjects' axis is. */
  readonly over?: { readonly from: number; readonly to: number };
  /** Of the frequency axis. */
  readonly frequency: 'linear' | 'log';
  readonly marks: readonly { readonly at: number; readonly label: string }[];
}

/** One of the values a chart shows, with the name it was bound to. */
export interface ChartSubject {
  readonly name: string | undefined;
  readonly value: Exclude<Value, ChartValue | QuantityValue | TextValue>;
}

export type ValueOf<K extends Value['kind']> = Extract<Value, { kind: K }>;
