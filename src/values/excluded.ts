import type { Json } from './jsonNumbers.ts';
import type { Run } from './run.ts';

/** A run that the run sheet leaves out. It goes through the same steps, apart, so that a result can be had with it. */
export interface ExcludedRun {
  readonly label: string;
  /** Relative to the notebook's folder. */
  readonly path: string;
  /** The sheet's reason. */
  readonly why: string;
  /** The run after the same steps; undefined where one of them could not be done with it. */
  readonly run: Run | undefined;
  /** Why a step could not be done, in a sentence. */
  readonly obstacle?: string;
}

/** What JSON says of the runs that a sheet leaves out. */
export const excludedJson = (excluded: readonly ExcludedRun[]): Json =>
  excluded.map(({ label, path, why, obstacle }) => ({ run: label, file: path, why, obstacle: obstacle ?? null }));
