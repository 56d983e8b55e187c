import { answered, type Answer, type Warning } from '../../result/result.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import type { PlanFollowed } from '../../values/plan.ts';
import type { Watch } from '../../values/ports.ts';
import { tell } from '../messages/evidence.ts';
import { evenSides } from './evenSides.ts';
import { excludedWarnings, whyNoneIncluded } from './excludedSides.ts';
import { orderLetters } from './layout.ts';
import { namesBand, type ComparisonRequest, type ComparisonTerms } from './request.ts';
import type { Sides } from './sides.ts';
import { weightedSides } from './weightedSides.ts';
import { planFollowed, planWarnings } from '../planning/planFollowed.ts';
import { bandWarnings } from '../spectra/bands.ts';
import { comparisonOf } from './comparison.ts';
import { termsOf } from './terms.ts';

/**
 * B against A as the request asks, held against its plan. Refused where the request does not fit the sides, where a
 * side can't be measured, and where excluded runs are to be taken in and there are none.
 */
export function comparedSides(sides: Sides, request: ComparisonRequest, watch: Watch): Answer<ComparisonValue> {
  const none = request.includesExcluded ? whyNoneIncluded(sides) : undefined;
  if (none !== undefined) return none;
  const terms = termsOf(request, sides);
  if (!terms.ok) return terms;
  const even = evenSides(sides, terms.value);
  if (!even.ok) return even;
  const weighted = weightedSides(even.value, terms.value.metric);
  if (!weighted.ok) return weighted;
  const found = comparisonOf(weighted.value, terms.value, watch);
  if (!found.ok) return found;
  const plan = followed(request, terms.value, sides, found.value);
  const value: ComparisonValue = {
    ...found.value,
    ...(plan === undefined ? {} : { plan }),
    ...(request.includesExcluded ? { includesExcluded: true } : {}),
  };
  const warnings = [
    ...even.warnings,
    ...found.warnings,
    ...spectrumWarnings(request, terms.value, sides),
    ...excludedWarnings(sides, request.includesExcluded),
    ...(plan === undefined && !namesBand(request) ? [] : planWarnings(plan, value.rows.length)),
  ];
  return answered(value, distinct(warnings));
}

/** What a reader must know of spectra that were given: bands too narrow for them, and a window that comes too late. */
function spectrumWarnings({ statesWindow }: ComparisonRequest, terms: ComparisonTerms, { a, b }: Sides): Warning[] {
  const isCut = (a.spectrum ?? b.spectrum ?? a.transfers) !== undefined;
  return [
    ...(terms.ofSignal || a.spectrum === undefined ? [] : bandWarnings(a.spectrum, terms.bands)),
    ...(statesWindow && isCut ? [tell('compare.using', {})] : []),
  ];
}

function followed(
  { plan, includesExcluded }: ComparisonRequest,
  { bands, primary, metric, margin }: ComparisonTerms,
  { a, b }: Sides,
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
    runsA: a.tracks.length,
    runsB: b.tracks.length,
    order: orderLetters(value.a.places, value.b.places),
    includesExcluded,
  });
}

const distinct = (warnings: readonly Warning[]): Warning[] =>
  warnings.filter(({ message }, index) => warnings.findIndex((other) => other.message === message) === index);
