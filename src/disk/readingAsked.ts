import type { SharedPlan, SharedRows } from '../readers/text/rowsBeside.ts';
import type { Density } from '../signal/welch.ts';
import type { WantedDensity } from '../values/ports.ts';
import type { Reading, ReadingTask } from './readRecording.ts';

/** What a thread is given, as its data, that is begun before anybody asks it for anything. */
export const begunAhead = 'ahead';

/** What a thread is asked. */
export type ThreadRequest = { readonly id: number } & (
  | ThreadTask
  /** To read rows beside another thread until it lets go. */
  | { readonly type: 'beside'; readonly rows: SharedRows; readonly plan: SharedPlan }
);

/** To read a recording (`stop` is one shared integer, not 0 once nobody waits for the answer), or for a density. */
export type ThreadTask =
  | { readonly type: 'read'; readonly task: ReadingTask; readonly stop: SharedArrayBuffer }
  | { readonly type: 'density'; readonly wanted: WantedDensity };

export type ThreadReply =
  | { readonly id: number; readonly type: 'progress'; readonly fraction: number }
  | { readonly id: number; readonly type: 'read'; readonly reading: Reading }
  | { readonly id: number; readonly type: 'density'; readonly density: Density }
  | { readonly id: number; readonly type: 'let go' }
  | { readonly id: number; readonly type: 'failed'; readonly message: string };
