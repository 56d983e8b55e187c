import type { Channel, Run } from './run.ts';

/** Running r.m.s. of each run and channel. */
export interface RunningValue {
  readonly kind: 'running';
  readonly set: string | undefined;
  /** Length of the sliding mean in s. */
  readonly over: number;
  readonly entries: readonly RunningEntry[];
}

/** In the channel's unit. */
export interface RunningEntry {
  readonly run: Run;
  readonly channel: Channel;
  /** End of each mean's stretch, in s on the recording's time axis. */
  readonly times: Float64Array;
  readonly rms: Float64Array;
  readonly largest: number;
  /** s on the recording's time axis. */
  readonly largestAt: number;
}
