import { lineOf } from '../../analysis/evidence/lineMetric.ts';
import { isWeighting } from '../../analysis/evidence/metrics.ts';
import { isAsCut } from '../../analysis/evidence/noiseFloor.ts';
import { hasBands, metricOf, type ComparisonRequest } from '../../analysis/evidence/request.ts';
import type { Comparable } from '../../analysis/evidence/sides.ts';
import { isOfSignal } from '../../values/comparison.ts';
import { runsOf } from '../../values/kinds.ts';
import type { Channel } from '../../values/run.ts';
import { windowOf, type Arguments, type ByRuns, type OwnStep } from '../verb.ts';
import { comparablesIn, compareRequest, referenceIn } from './compareRequest.ts';
import { densitiesBy, evened, plainLevels, weightedBy } from './ownSteps.ts';

/**
 * How a comparison has what it needs made of each run by itself. Undefined where it takes in excluded runs, brings sides to
 * one unit, looks at the samples behind spectra, or is of runs that are too large for memory. Of a call without its runs it
 * tells how that would be.
 */
export function byRuns(given: Arguments): ByRuns | undefined {
  const request = compareRequest(given);
  if (!request.ok) return undefined;
  const { floor, includesExcluded } = request.value;
  const sides = sidesIn(given);
  const ofRuns = [...sides, ...(floor === undefined ? [] : [floor])].filter(({ kind }) => kind === 'runs');
  const isLong = ofRuns.flatMap(runsOf).some(({ long }) => long !== undefined);
  if (includesExcluded || isLong || !areOfOneUnit(sides)) return undefined;
  const metric = metricOf(request.value);
  const weighted = new Set(sides.flatMap(channelsOf).map(({ weighting }) => weighting !== undefined));
  const dependsOnRuns = !isOfSignal(metric) && !isWeighting(metric) && isOfWholeSignal(request.value, true);
  // What the spectra of some and the levels of others would be compared by is told by the first.
  if (dependsOnRuns && weighted.size > 1) return undefined;
  const steps = stepsBy(request.value, given);
  const ofSpectra = sides.filter(({ kind }) => kind !== 'runs');
  const looksBehind = isOfSignal(metric) || isWeighting(metric) || (dependsOnRuns && weighted.has(true));
  if (ofSpectra.some((one) => looksBehind && one.kind === 'spectrum')) return undefined;
  if (ofSpectra.flatMap(runsOf).some(({ stamps }) => stamps !== undefined)) return undefined;
  const first = sides.at(0);
  const cut = first?.kind === 'spectrum' ? first.window : windowOf(given);
  if (floor?.kind === 'spectrum' && !isAsCut(floor, cut)) return undefined;
  const rest = [densitiesBy(cut)];
  return (slot, through) => {
    const [isWeighted = through.includes('weight')] = weighted;
    return slot === 'above' ? rest : steps(isWeighted);
  };
}

const sidesIn = (given: Arguments): readonly Comparable[] =>
  [...comparablesIn(given), ...[referenceIn(given) ?? []].flat()].map(({ value }) => value);

/** What each run goes through, by whether it is weighted already. */
function stepsBy(request: ComparisonRequest, given: Arguments): (isWeighted: boolean) => readonly OwnStep[] {
  const metric = metricOf(request);
  const window = windowOf(given);
  return (isWeighted) => {
    const isWhole = isOfWholeSignal(request, isWeighted);
    if (isWeighting(metric)) return [evened, weightedBy(metric), isWhole ? plainLevels : densitiesBy(window)];
    return isWhole ? [plainLevels] : [evened, densitiesBy(window)];
  };
}

/** Whether levels of whole signals are compared, and no bands. */
function isOfWholeSignal(request: ComparisonRequest, isWeighted: boolean): boolean {
  const metric = metricOf(request);
  if (isOfSignal(metric)) return true;
  return lineOf(metric) === undefined && !hasBands(request) && (isWeighted || isWeighting(metric));
}

/** Whether no side has to be brought to the unit of the baseline, of which runs alone have samples. */
function areOfOneUnit(sides: readonly Comparable[]): boolean {
  if (!sides.some(({ kind }) => kind === 'runs')) return true;
  const units = new Map<string, string>();
  for (const { name, unit } of sides.flatMap(channelsOf)) {
    if ((units.get(name) ?? unit.symbol) !== unit.symbol) return false;
    units.set(name, unit.symbol);
  }
  return true;
}

/** The channels that a side may be of; none of responses, which are of no one channel. */
function channelsOf(side: Comparable): readonly Channel[] {
  if (side.kind === 'runs') return side.runs.flatMap(({ channels }) => channels);
  return side.kind === 'spectrum' ? side.entries.map(({ channel }) => channel) : [];
}
