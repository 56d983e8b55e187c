import type { ExcludedRun } from './excluded.ts';
import type { Run } from './run.ts';

/** One or more recordings, or stretches of them. */
export interface RunsValue {
  readonly kind: 'runs';
  /** What the set is called in legends: the `label` of `load`, else the name it was bound to. */
  readonly set: string | undefined;
  readonly runs: readonly Run[];
  /** Runs that the run sheet leaves out. */
  readonly excluded?: readonly ExcludedRun[];
}
