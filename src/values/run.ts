import type { Finding, Layout, LongRecording, Outline, ReadOptions, Stretch } from '../readers/recording.ts';
import { gapsBetween } from '../signal/stretch.ts';
import type { Unit } from '../units/unit.ts';

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
  /** When each sample was taken, where that is too uneven for the rate to tell; none where sampling is uniform. */
  readonly stamps?: UnevenStamps;
  /** The run this one was trimmed from, so that a plot can show where the stretch lies. */
  readonly untrimmed?: Run;
  /** What was done to the samples, in order, in words for the methods section: `highpass 2 Hz order 4`. */
  readonly history: readonly string[];
  /** Findings that travel with every later result of the run. */
  readonly findings: readonly Finding[];
  readonly layout: Layout;
  /** From a run sheet, if there is one. */
  readonly sheet?: RunFacts;
  /** Of a recording that is too large for memory: its signals have no samples, which are read part by part. */
  readonly long?: LongRun;
  /** What the run sheet or `load` calls the sensor; runs without a name are taken to be of one. */
  readonly sensor?: string;
}

/** Where the samples of a run stand that is too large for memory. Plain data. */
export interface LongRun {
  readonly recording: LongRecording;
  /** How its file was read, and which channels were asked for. */
  readonly reading: ReadOptions;
  readonly channels: readonly string[];
  /** Which of the recording's samples these are: from one up to but without another. */
  readonly from: number;
  readonly to: number;
}

/** When the samples of a run were taken that was not sampled evenly. */
export interface UnevenStamps {
  /** One a sample, in s from the recording's first sample; never falling within a stretch. */
  readonly times: Float64Array;
  /** Where the samples are away, and the times with them: the time of the last sample of each stretch, by its index. */
  readonly ends?: Readonly<Record<number, number>>;
  /** Standard deviation of the steps over their mean, with the rounding of the stamps taken out. */
  readonly jitter: number;
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

/** A signal, or the resultant of several: told apart by its axes. */
export type Channel = Signal | Resultant;

/** The vector of several signals at right angles, all of one unit. It is carried as its axes: mean squares add, lengths do not. */
export interface Resultant extends ChannelFacts {
  /** With their means; two or more, all of one length. */
  readonly axes: readonly Signal[];
}

export interface Signal extends ChannelFacts {
  /** None at all where they are away. */
  readonly samples: Float64Array;
  /** How many there are, where they are not at hand: what needs them has them read again. */
  readonly away?: number;
  readonly axes?: undefined;
  /** How finely the logger wrote it, where that is known. */
  readonly written?: Written;
  /** What is drawn of it, where the run is too large for memory. */
  readonly outline?: Outline;
}

/** The smallest difference between two readings of a file, in the unit that it was read in; 0 where all are alike. */
export interface Written {
  readonly step: number;
  readonly unit: string;
}

/** What is known of a sensor's sensitivity. */
export interface SensorUncertainty {
  /** Relative standard uncertainty: 0.02 is 2 %. */
  readonly relative: number;
  /** What is of the same sensor and axis has the same error, and ratios are free of it. */
  readonly sensor: string;
  readonly axis: string;
  /** Degrees of freedom of the uncertainty; not bounded unless said. */
  readonly df?: number;
}

interface ChannelFacts {
  readonly name: string;
  /** The header's text in the file, by which the channel may be named too. */
  readonly header?: string;
  readonly unit: Unit;
  /** Where the unit came from, in words: `the header`, `the option`, `the length of the mean vector`. */
  readonly unitFrom: string;
  /** Frequency weighting that was applied, such as `Wk`; of a resultant whose axes differ, one an axis: `Wd/Wd/Wk`. */
  readonly weighting?: string;
  /** Of the sensor's sensitivity, where `load` states it. */
  readonly calibration?: SensorUncertainty;
  /** Whether the mean still holds gravity; false once a mean or a high-pass has been taken out. */
  readonly includesStatic: boolean;
  /** In Hz: of a velocity or displacement, nothing below it means anything. */
  readonly lowCut?: number;
  /** In Hz: the highest corner of a high-pass or band-pass that it went through. */
  readonly highpass?: number;
}

/** The times in s of the last samples of stretches at least, by their indices. */
const timesKnown = ({ times, ends }: UnevenStamps): Readonly<Record<number, number>> => ends ?? times;

/** s; one mean step after the last sample of one of a run's stretches, on the recording's time axis. */
export const stretchEnd = ({ rate, stamps }: Pick<Run, 'rate' | 'stamps'>, { from, to, start }: Stretch): number =>
  stamps === undefined ? start + (to - from) / rate : timesKnown(stamps)[to - 1] + 1 / rate;

/** s; the time from a run's first sample to one step after its last, gaps and all. */
export function extent(run: Run): number {
  return stretchEnd(run, run.stretches[run.stretches.length - 1]) - run.stretches[0].start;
}

/** s; how long a run was sampled for, without its gaps. */
export function sampledFor(run: Run): number {
  if (run.stamps === undefined) return sampleCount(run) / run.rate;
  return run.stretches.reduce((sum, stretch) => sum + stretchEnd(run, stretch) - stretch.start, 0);
}

/** The signals of a run, those of a resultant one by one. */
export const signalsOf = ({ channels }: Pick<Run, 'channels'>): Signal[] => channels.flatMap(axesOf);

/** The axes of a resultant; a signal is its own only one. */
export const axesOf = (channel: Channel): readonly Signal[] => channel.axes ?? [channel];

/** Samples of each channel. */
export function sampleCount(run: Run): number {
  if (run.long !== undefined) return run.long.to - run.long.from;
  const first = signalsOf(run).at(0);
  return first?.away ?? first?.samples.length ?? 0;
}

/** How many gaps a run has; where its clock was reset nobody knows of any. */
export const gapCount = ({ stretches, rate, stamps }: Run): number =>
  gapsBetween(stretches, rate, stamps && timesKnown(stamps)).length;
