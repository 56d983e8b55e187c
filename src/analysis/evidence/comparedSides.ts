import { answered, success, type Answer, type Warning } from '../../result/result.ts';
import { sidesIn, type ComparisonValue } from '../../values/comparison.ts';
import { listed } from '../../result/words.ts';
import type { PlanFollowed } from '../../values/plan.ts';
import { tell } from '../messages/evidence.ts';
import type { Reach } from '../recordings/longRuns.ts';
import { knownOfLong } from './longTracks.ts';
import { evenSides } from './evenSides.ts';
import { floorOfFigures, knownOfFigures, sidesOfFigures, type FiguresOf } from './figures.ts';
import { excludedWarnings, whyNoneIncluded } from './excludedSides.ts';
import { orderLetters } from './knownRuns.ts';
import { namesBand, type ComparisonRequest, type ComparisonTerms } from './request.ts';
import { comparedIn, measuredIn, type Sides } from './sides.ts';
import { weightedSides } from './weightedSides.ts';
import { planFollowed, plannedFor, planWarnings } from '../planning/planFollowed.ts';
import { bandWarnings } from '../spectra/bands.ts';
import { eachOnce } from '../together.ts';
import { comparisonOf } from './comparison.ts';
import { termsOf } from './terms.ts';

/**
 * The conditions against the baseline as the request asks, held against its plan. Refused where the request does not fit the sides, where a
 * side can't be measured, and where excluded runs are to be taken in and there are none. Runs that are too large for
 * memory are read part by part; a metric that is a weighting can't take them.
 *
 * @param axes the sides, one entry an axis
 * @param figures of the channels whose samples are away; where they are given, of all that stand in sets of runs
 */
export async function comparedSides(
  axes: readonly Sides[],
  request: ComparisonRequest,
  reach: Reach,
  figures?: FiguresOf,
): Promise<Answer<ComparisonValue>> {
  const [sides] = axes;
  const none = request.includesExcluded ? whyNoneIncluded(sides) : undefined;
  if (none !== undefined) return none;
  const terms = termsOf(request, sides);
  if (!terms.ok) return terms;
  const prepared: Sides[] = [];
  const conditioningWarnings: Warning[] = [];
  for (const one of axes) {
    const made = figures === undefined ? conditioned(one, terms.value) : sidesOfFigures(one, terms.value, figures);
    if (!made.ok) return made;
    prepared.push(made.value);
    conditioningWarnings.push(...made.warnings);
  }
  const known =
    figures === undefined ? await knownOfLong(prepared, terms.value, reach) : success(knownOfFigures(figures));
  if (!known.ok) return known;
  const planned = plannedIn(request, terms.value, prepared);
  const floor = figures === undefined ? request.floor : floorOfFigures(request.floor, figures);
  const found = comparisonOf(prepared, { ...terms.value, ...planned, floor, known: known.value }, reach.watch);
  if (!found.ok) return found;
  const plan = followed(request, terms.value, sides, found.value);
  const value: ComparisonValue = {
    ...found.value,
    ...(plan === undefined ? {} : { plan }),
    ...(request.includesExcluded ? { includesExcluded: true } : {}),
  };
  const warnings = [
    ...conditioningWarnings,
    ...found.warnings,
    ...spectrumWarnings(request, terms.value, sides),
    ...excludedWarnings(sides, request.includesExcluded),
    ...(plan === undefined && !namesBand(request) ? [] : planWarnings(plan, value.rows.length)),
  ];
  return answered(value, eachOnce(warnings));
}

/** Sides at a uniform rate and weighted, as far as their metric asks for it. */
function conditioned(sides: Sides, terms: ComparisonTerms): Answer<Sides> {
  const even = evenSides(sides, terms);
  if (!even.ok) return even;
  const made = weightedSides(even.value, terms.metric);
  return made.ok ? answered(made.value, [...even.warnings, ...made.warnings]) : made;
}

/** What a reader must know of spectra that were given: bands too narrow for them, and a window that comes too late. */
function spectrumWarnings({ statesWindow }: ComparisonRequest, terms: ComparisonTerms, sides: Sides): Warning[] {
  const { a } = sides;
  const isCut = a.transfers !== undefined || measuredIn(sides).some(({ spectrum }) => spectrum !== undefined);
  return [
    ...(terms.ofSignal || a.spectrum === undefined ? [] : bandWarnings(a.spectrum, terms.bands)),
    ...(statesWindow && isCut ? [tell('compare.using', {})] : []),
  ];
}

/** What the plan of a request says against the terms. */
function plannedIn(
  { plan }: ComparisonRequest,
  { metric }: ComparisonTerms,
  axes: readonly Sides[],
): Pick<ComparisonTerms, 'planned'> {
  const channel = axes.map(({ a }) => a.channel).join(', ');
  return plan === undefined ? {} : { planned: plannedFor(plan.value, { metric, channel }) };
}

function followed(
  { plan, includesExcluded }: ComparisonRequest,
  { bands, primary, metric, margin, within, adjust }: ComparisonTerms,
  sides: Sides,
  value: ComparisonValue,
): PlanFollowed | undefined {
  if (plan === undefined) return undefined;
  return planFollowed(plan.name, plan.value, {
    metric,
    channel: value.channel,
    primary: primary === undefined ? undefined : bands[primary],
    bands: bands.filter((_, index) => index !== primary),
    margin,
    confidence: value.confidence,
    method: value.methodCode,
    names: comparedIn(sides).map(({ name }) => name),
    counts: countsOf(value),
    order: orderOf(value),
    within,
    adjust,
    isAllPairs: value.isAllPairs === true,
    includesExcluded,
  });
}

/** Runs of each side: one list, or one a stratum. */
function countsOf(value: ComparisonValue): number[][] {
  const names = value.strata?.names ?? [undefined];
  const isOf = (name: string | undefined, stratum: string | undefined): boolean =>
    name === undefined || stratum === name;
  return names.map((name) =>
    sidesIn(value).map(({ runs, strata }) => runs.filter((_, k) => isOf(name, strata?.[k])).length),
  );
}

/** The order of all sides' runs as letters; of strata that of each, with their names where not all have the same. */
function orderOf(value: ComparisonValue): string | undefined {
  const names = value.strata?.names ?? [undefined];
  const sides = sidesIn(value);
  const orders = names.map((name) =>
    orderLetters(
      sides.map(({ places, strata }) => places?.filter((_, k) => name === undefined || strata?.[k] === name)),
    ),
  );
  if (new Set(orders).size === 1) return orders[0];
  return listed(orders.map((order = 'not known', k) => `${order} (${names[k]})`));
}
