import type { Finding } from '../recording.ts';
import { settings } from '../settings.ts';
import { measured, type CheckedRun, type Question } from './checked.ts';
import { meanVector } from './gravity.ts';
import { linesOf, lineSegment, type ChannelLines } from './lines.ts';
import { samplesPrint } from './samplesPrint.ts';
import { blocksOf } from './stationarity.ts';

/** A run of a set, by the name it has in legends. */
export interface NamedRun extends CheckedRun {
  readonly label: string;
  /** As the run sheet has it, in whatever unit all runs have it in. */
  readonly speed?: number | undefined;
}

/** What of a run is held against the others of its set: its samples are not, and may go. Plain data. */
export interface SeenRun extends Pick<NamedRun, 'label' | 'speed' | 'rate'> {
  /** How long it was sampled for, without its gaps. */
  readonly seconds: number;
  readonly samples: number;
  /** The names of all its channels. */
  readonly channels: readonly string[];
  /** Units of what is measured. */
  readonly units: readonly (string | undefined)[];
  /** Mean of x, y and z in g, where that can be told. */
  readonly gravity: readonly [number, number, number] | undefined;
  /** The level of its quietest second; infinite where there is no whole one. */
  readonly stillest: number;
  /** By which runs with the very same samples are known. */
  readonly print: string | undefined;
  /** s; how long the segments are by which lines are told. */
  readonly lineSegment: number;
  readonly lines: readonly ChannelLines[];
}

/** A finding on one run as it stands beside the others; `run` is its index in the set. */
export interface SetFinding {
  readonly run: number;
  readonly finding: Finding;
}

/** One comparison of the runs of a set. */
export type SetCheck = (runs: readonly SeenRun[], question?: Question) => SetFinding[];

/** @param question by which the shares of lines are told */
export function seen(run: NamedRun, question: Question = {}): SeenRun {
  const { label, speed, rate, stretches, channels } = run;
  const still = blocksOf(run, settings.between.stillBlock);
  return {
    label,
    ...(speed === undefined ? {} : { speed }),
    rate,
    seconds: stretches.reduce((sum, { from, to }) => sum + to - from, 0) / rate,
    samples: channels[0]?.samples.length ?? 0,
    channels: channels.map(({ name }) => name),
    units: measured(run).map(({ unit }) => unit),
    gravity: meanVector(run),
    stillest: Math.sqrt(still.reduce((least, { power }) => Math.min(least, power), Infinity)),
    print: samplesPrint(channels.map(({ samples }) => samples)),
    lineSegment: lineSegment(run),
    lines: linesOf(run, question),
  };
}
