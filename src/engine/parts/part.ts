import type { ChannelOfRun, Warning } from '../../result/result.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import { allRunsOf, isRunAway } from '../../values/away.ts';
import type { Run } from '../../values/run.ts';
import type { Value } from '../../values/value.ts';
import type { ListedRecording } from '../../verbs/each.ts';

/** What one recording of a set gives after a number of steps; plain data, so that it can be kept. */
export interface Part {
  /** The value of a set that holds this recording alone; undefined of a run that a sheet leaves out. */
  readonly value?: Value;
  readonly excluded?: ExcludedRun;
  /** What each step told on the way, the first being the reading. */
  readonly told: readonly Told[];
}

/** What a step told of one recording. */
export interface Told {
  readonly warnings: readonly Warning[];
  /** The faults of the run itself, which are told behind the warnings of the whole set. */
  readonly faults: readonly Warning[];
  /** Channels that the recording has no more after the step; none unless said. */
  readonly leftOut?: readonly ChannelOfRun[];
  /** What has to be alike in all recordings of the set. */
  readonly common?: unknown;
}

/** One recording of a chain: to be read from its file, or at hand; neither where another process works on it. */
export interface Source {
  /** By which it is known; undefined where its file can't be identified. */
  readonly key: string | undefined;
  readonly recording?: ListedRecording;
  readonly bytes: number;
  readonly part?: Part;
}

/** The runs behind what a recording gave. */
export const runsIn = ({ value, excluded }: Part): readonly Run[] => [
  ...(value === undefined ? [] : allRunsOf(value)),
  ...(excluded?.run === undefined ? [] : [excluded.run]),
];

/** Whether samples of a recording are away. */
export const isPartAway = (part: Part): boolean => runsIn(part).some(isRunAway);

export const toldNothing: Told = { warnings: [], faults: [] };
