import { metricOf } from '../../analysis/evidence/request.ts';
import { isOfDensities } from '../../analysis/evidence/metrics.ts';
import type { WindowValue } from '../../values/window.ts';
import { windowOf, type Arguments } from '../verb.ts';
import { comparablesIn, compareRequest, referenceIn, type NamedComparable } from './compareRequest.ts';

/**
 * The window of the spectra, where nothing else of the runs has to be looked at for a comparison: their band levels are
 * compared, they are of one unit, evenly sampled and unweighted, and the logger at rest is not among what is given.
 */
export function densitiesBy(given: Arguments): WindowValue | undefined {
  const request = compareRequest(given);
  if (!request.ok) return undefined;
  const { floor, includesExcluded } = request.value;
  if (floor !== undefined || includesExcluded || !isOfDensities(metricOf(request.value))) return undefined;
  const reference = referenceIn(given);
  const all = [...comparablesIn(given), ...(reference === undefined ? [] : [reference])];
  return arePlain(all) ? windowOf(given) : undefined;
}

function arePlain(all: readonly NamedComparable[]): boolean {
  const runs = all.flatMap(({ value }) => (value.kind === 'runs' ? value.runs : []));
  const channels = runs.flatMap((run) => run.channels);
  return (
    runs.every(({ stamps, long }) => stamps === undefined && long === undefined) &&
    channels.every(({ weighting }) => weighting === undefined) &&
    new Set(channels.map(({ unit }) => unit.symbol)).size <= 1 &&
    all.every(({ value }) => value.kind !== 'transfer')
  );
}
