import type { Message } from '../../result/result.ts';
import { judgeInterval } from '../../statistics/claim.ts';
import { claimZone, type Claim } from '../../statistics/claimForm.ts';
import type { RatioInterval } from '../../statistics/estimate.ts';
import type { ComparisonRow, ComparisonValue } from '../../values/comparison.ts';
import { guard } from '../messages/verdict.ts';
import { sameBand } from '../planning/planFollowed.ts';

/** Reasons outside a row's own figures that forbid a verdict by it, as clauses. */
export function guardsOf(claim: Claim, comparison: ComparisonValue, row: ComparisonRow): Message[] {
  const { plan } = comparison;
  const planned = plan?.bands ?? [];
  const isUnplanned = planned.length > 0 && !planned.some((band) => sameBand(band, row.band));
  return [
    ...(comparison.guards ?? []),
    ...(row.guards ?? []),
    ...(plan?.unplanned ?? []),
    ...(isUnplanned ? [guard('guard.band', { band: row.band })] : []),
    ...familyGuards(claim, comparison, row),
  ];
}

/**
 * A band that was picked from several needs the interval that holds for all of them at once. Where that comes to
 * another verdict than the band's own, nothing is shown.
 */
function familyGuards(claim: Claim, { rows }: ComparisonValue, row: ComparisonRow): Message[] {
  const { simultaneous, lowPercent, highPercent, primary } = row;
  if (primary === true || simultaneous === undefined || lowPercent === undefined || highPercent === undefined)
    return [];
  const zone = claimZone(claim);
  const alone = judgeInterval(zone, ratios(lowPercent, highPercent));
  const together = judgeInterval(zone, ratios(simultaneous.lowPercent, simultaneous.highPercent));
  if (alone === together || alone === 'not shown') return [];
  const bands = rows.filter((one) => one.primary !== true).length;
  return [guard('guard.family', { bands, ...simultaneous })];
}

const ratios = (lowPercent: number, highPercent: number): RatioInterval => ({
  low: 1 + lowPercent / 100,
  high: 1 + highPercent / 100,
});
