import { judge, type RowStatement, type Judgement, type NoInference } from '../../statistics/claim.ts';
import { claimZone, type Claim } from '../../statistics/claimForm.ts';
import { sidesOfRow, type ComparisonValue } from '../../values/comparison.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import { fittingsOf } from '../../values/fittings.ts';
import type { VerdictValue } from '../../values/verdict.ts';
import { claimText, verdictWords } from '../messages/verdict.ts';
import { reasonOfOrder } from '../../statistics/sequence.ts';
import { guardsOf } from './guards.ts';

/** That a row is the best case among those compared, and what becomes of the same figure as one to be expected. */
export interface BestCase {
  /** How many changes were compared that the claim may be about. */
  readonly changes: number;
  /** Of the row that speaks for the comparison, as at least so much; undefined where none does. */
  readonly expected: Judgement | undefined;
}

/** What becomes of a claim by one row of a comparison. @param source where the claim stands @param best of a claim of "up to" */
export function verdictOf(
  claim: Claim,
  comparison: ComparisonValue,
  row: ComparisonRow,
  source: string | undefined,
  best?: BestCase,
): VerdictValue {
  const { plan } = comparison;
  const sides = sidesOfRow(comparison, row);
  const guards = guardsOf(comparison, row);
  const change = judgedRow(comparison, row);
  const verdict = judge(claim, change, guards.length > 0);
  const words = verdictWords({
    found: row.sentence,
    a: sides.a.name,
    runsA: sides.a.runs.length,
    runsB: sides.b.runs.length,
    claim,
    verdict,
    guards,
    // A row without other reasons against it tells of its order itself.
    foundTellsWhy: change.noInference === undefined || (change.interval !== undefined && guards.length === 0),
    shareOfA: row.shareOfA,
    best,
    fittedOnce: fittingsOf(comparison, row)?.once ?? [],
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
    ...('of' in claim && claim.of === 'power' ? { isOfPower: true } : {}),
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

/** A row as it is judged: by the interval it is printed with. */
function judgedRow(comparison: ComparisonValue, row: ComparisonRow): RowStatement {
  const { lowPercent, highPercent, changePercent, spread, family } = row;
  const { confidence } = comparison;
  return {
    ratio: ratioOf(changePercent),
    interval:
      lowPercent === undefined || highPercent === undefined
        ? undefined
        : { low: ratioOf(lowPercent), high: ratioOf(highPercent) },
    spread,
    confidence: 1 - (1 - confidence) / family,
    noInference: withheld(row),
  };
}

function withheld({ methodCode, sequence, lowPercent }: ComparisonRow): NoInference | undefined {
  if (lowPercent !== undefined) return reasonOfOrder(sequence);
  if (methodCode === 'one run each') return 'one-run-each';
  return methodCode === 'no inference' ? 'few-runs' : 'no-scatter';
}

const ratioOf = (percent: number): number => 1 + percent / 100;

const isSameClaim = (one: Claim, other: Claim): boolean => JSON.stringify(one) === JSON.stringify(other);
