import { isJoinable, joined } from '../analysis/joined.ts';
import type { ExcludedRun } from '../values/excluded.ts';
import { handsOnExcluded } from '../values/kinds.ts';
import type { Value } from '../values/value.ts';

export { inFewLines } from '../analysis/alike.ts';
export { joinedWarnings } from '../analysis/joined.ts';
export { withoutLeftOut } from '../analysis/recordings/faults.ts';
export { readingsOf, type ListedRecording, type Listing, type Readings } from '../analysis/recordings/load.ts';
export { followed } from './excludedRuns.ts';

/**
 * The value of a set from those of its runs.
 * @param parts what a verb that goes over runs one by one gave of each, in their order; at least one
 * @param excluded the runs that a sheet leaves out, after the same steps
 */
export function joinedValue(parts: readonly Value[], set: string | undefined, excluded: readonly ExcludedRun[]): Value {
  const value = joined(parts.filter(isJoinable), set);
  return excluded.length > 0 && handsOnExcluded(value) ? { ...value, excluded } : value;
}
