import { judge, judgeInterval } from '../../statistics/claim.ts';
import { claimZone, type Claim } from '../../statistics/claimForm.ts';
import { compare as compareLevels } from '../../statistics/compare.ts';
import type { RatioInterval } from '../../statistics/estimate.ts';
import type { Method } from '../../statistics/methods.ts';
import { bandText } from '../../analysis/evidence/compareSentence.ts';
import { claimText, verdictWords, type VerdictWords } from '../../analysis/evidence/methodWords.ts';
import { intervalText } from '../../analysis/percents.ts';
import { sameBand } from '../../analysis/planning/planFollowed.ts';
import type { ComparisonRow, ComparisonValue } from '../../values/comparison.ts';
import type { VerdictValue } from '../../values/verdict.ts';

/** The method of a comparison, where it had one. */
export const methodOf = ({ methodCode }: ComparisonValue): Method =>
  methodCode === 'paired' || methodCode === 'trend' || methodCode === 'pooled' ? methodCode : 'welch';

/** A claim held against one row of a comparison. */
export function judged(
  claim: Claim,
  comparison: ComparisonValue,
  row: ComparisonRow,
  source: string | undefined,
): VerdictValue {
  const { a, b, confidence } = comparison;
  const found = compareLevels([{ a: row.aRuns, b: row.bRuns }], {
    confidence,
    method: methodOf(comparison),
    orderA: a.places,
    orderB: b.places,
  });
  const guards = guardsOf(claim, comparison, row);
  const verdict = judge(claim, found, 0, guards.length > 0);
  const words = verdictWords(subjectOf(comparison, row), claim, found, verdict, guards);
  const zone = claimZone(claim);
  const percent = (change: number | undefined): number | undefined => (change === undefined ? undefined : 0 - change);
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
    lowPercent: percent(verdict.highPercent),
    highPercent: percent(verdict.lowPercent),
    powerReductionPercent: 100 * (1 - (1 + row.changePercent / 100) ** 2),
    sentence: words.sentence,
    because: becauseOf(claim, comparison, row, words),
    settle: words.settle,
  };
}

/** `From foam to gel, the band r.m.s. of z in 10 to 50 Hz` */
function subjectOf({ a, b, channel, metric, metricCode }: ComparisonValue, { band }: ComparisonRow): string {
  const whole = band.from === 0 && metricCode !== 'rms';
  return `From ${a.name} to ${b.name}, the ${metric} of ${channel}${whole ? '' : ` in ${bandText(band)}`}`;
}

/** Reasons outside the row's figures that forbid a verdict. */
function guardsOf(claim: Claim, comparison: ComparisonValue, row: ComparisonRow): string[] {
  const { plan } = comparison;
  const planned = plan?.bands ?? [];
  const offBand = planned.length > 0 && !planned.some((band) => sameBand(band, row.band));
  return [
    ...(comparison.guards ?? []),
    ...(row.guards ?? []),
    ...(plan?.unplanned ?? []),
    ...(offBand ? [`${bandText(row.band)} is no band of the plan`] : []),
    ...familyGuard(claim, comparison, row),
  ];
}

/**
 * A band that was picked from several needs the interval that holds for all of them at once. Where that comes to
 * another verdict than the band's own, nothing is shown.
 */
function familyGuard(claim: Claim, { rows }: ComparisonValue, row: ComparisonRow): string[] {
  const { simultaneous, lowPercent, highPercent, primary } = row;
  if (primary === true || simultaneous === undefined || lowPercent === undefined || highPercent === undefined)
    return [];
  const ratios = (low: number, high: number): RatioInterval => ({ low: 1 + low / 100, high: 1 + high / 100 });
  const zone = claimZone(claim);
  const alone = judgeInterval(zone, ratios(lowPercent, highPercent));
  const together = judgeInterval(zone, ratios(simultaneous.lowPercent, simultaneous.highPercent));
  if (alone === together || alone === 'not shown') return [];
  const count = rows.filter((one) => one.primary !== true).length;
  return [
    `${count} bands were compared and this one was not named beforehand: the interval that holds for all of them at once is ${intervalText(simultaneous.lowPercent, simultaneous.highPercent)}`,
  ];
}

function becauseOf(claim: Claim, comparison: ComparisonValue, row: ComparisonRow, words: VerdictWords): string[] {
  const { plan, a } = comparison;
  const said = [words.because];
  if (words.bothWays !== undefined) said.push(words.bothWays);
  if (row.shareOfA !== undefined)
    said.push(`the band holds ${row.shareOfA.toPrecision(3)} % of the mean square of ${a.name}`);
  if (plan?.claim !== undefined && JSON.stringify(plan.claim) !== JSON.stringify(claim))
    said.push(`the claim that was planned is ${claimText(plan.claim)}, and this is another`);
  return said;
}
