import { judge } from '../../statistics/claim.ts';
import { claimZone, type Claim } from '../../statistics/claimForm.ts';
import { compare as compareLevels } from '../../statistics/compare.ts';
import type { Method } from '../../statistics/methods.ts';
import type { ComparisonRow, ComparisonValue } from '../../values/comparison.ts';
import type { VerdictValue } from '../../values/verdict.ts';
import { claimText, verdictWords, type Subject } from '../messages/verdict.ts';
import { guardsOf } from './guards.ts';

/** The method of a comparison, where it had one; Welch's else. */
export const methodOf = ({ methodCode }: ComparisonValue): Method =>
  methodCode === 'paired' || methodCode === 'trend' || methodCode === 'pooled' ? methodCode : 'welch';

/** What becomes of a claim by one row of a comparison. @param source where the claim stands */
export function verdictOf(
  claim: Claim,
  comparison: ComparisonValue,
  row: ComparisonRow,
  source: string | undefined,
): VerdictValue {
  const { a, b, confidence, plan } = comparison;
  const found = compareLevels([{ a: row.aRuns, b: row.bRuns }], {
    confidence,
    method: methodOf(comparison),
    orderA: a.places,
    orderB: b.places,
  });
  const guards = guardsOf(claim, comparison, row);
  const verdict = judge(claim, found, 0, guards.length > 0);
  const words = verdictWords({
    subject: subjectOf(comparison, row),
    claim,
    comparison: found,
    verdict,
    guards,
    shareOfA: row.shareOfA,
    otherPlanned: plan?.claim !== undefined && !isSameClaim(plan.claim, claim) ? plan.claim : undefined,
  });
  const zone = claimZone(claim);
  return {
    kind: 'verdict',
    verdict: verdict.verdict,
    claim: claimText(claim),
    source,
    band: row.band,
    comparison,
    row,
    claimed: { from: zone.low > 0 ? zone.low : undefined, to: zone.high < Infinity ? zone.high : undefined },
    reductionPercent: 0 - row.changePercent,
    lowPercent: reduction(verdict.highPercent),
    highPercent: reduction(verdict.lowPercent),
    powerReductionPercent: 100 * (1 - (1 + row.changePercent / 100) ** 2),
    ...words,
  };
}

/** A change as a reduction; 0 stays 0. */
const reduction = (percent: number | undefined): number | undefined =>
  percent === undefined ? undefined : 0 - percent;

function subjectOf({ a, b, channel, metric, metricCode }: ComparisonValue, { band }: ComparisonRow): Subject {
  const isWhole = band.from === 0 && metricCode !== 'rms';
  return { a: a.name, b: b.name, metric, channel, band: isWhole ? undefined : band };
}

const isSameClaim = (one: Claim, other: Claim): boolean => JSON.stringify(one) === JSON.stringify(other);
