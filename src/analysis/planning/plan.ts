import { answered, type Answer, success, type Result, type Warning } from '../../result/result.ts';
import { listed } from '../../result/words.ts';
import { orderText } from '../../statistics/order.ts';
import type { PlanValue, Settled } from '../../values/plan.ts';
import { bandsText, bandText } from '../bandWords.ts';
import { isOfSignal } from '../../values/comparison.ts';
import { lineOf } from '../evidence/lineMetric.ts';
import { plannedMetric } from '../evidence/metrics.ts';
import { refuse, tell, type OpenItem } from '../messages/planning.ts';
import { claimText } from '../messages/verdict.ts';
import { percentText } from '../percents.ts';
import { adjustmentText } from './planFollowed.ts';

/**
 * A plan that states what is settled, marked by the SHA-256 of its entries. Refused without a question, and where the
 * order does not hold the runs that are planned.
 *
 * @param rules when a run is left out, one sentence each
 * @param digest SHA-256 of a text, lower-case hex
 */
export function planOf(
  settled: Settled,
  rules: readonly string[],
  digest: (text: string) => string,
): Answer<PlanValue> {
  if (settled.question.trim() === '') return refuse('plan.question', {}, 'question');
  const { order, runs } = settled;
  if (order !== undefined && runs !== undefined) {
    const letters = Math.max(settled.conditions === undefined ? 2 : settled.conditions.length + 1, lettersIn(order));
    const counts = Array.from({ length: letters }, (_, k) => [...order].filter((one) => indexOf(one) === k).length);
    if (counts.some((count) => count !== runs)) return refuse('plan.order', { counts, runs }, 'order');
  }
  const entries = entriesOf(settled, rules);
  const hash = digest(entries.map(({ word, text }) => `${word}: ${text}\n`).join(''));
  return answered({ kind: 'plan', entries, hash, settled }, openWarnings(settled));
}

/** The letters of an order, without the blanks between fours: `ABBABAAB`. Refused of a text with other letters. */
export function orderLetters(text: string): Result<string> {
  const letters = text.replace(/[\s,]+/g, '').toUpperCase();
  return /^[A-H]+$/.test(letters) ? success(letters) : refuse('plan.order', { text }, 'order');
}

const indexOf = (letter: string): number => letter.charCodeAt(0) - 'A'.charCodeAt(0);
const lettersIn = (order: string): number => Math.max(...[...order].map(indexOf)) + 1;

/** What the plan states, in words and in one order, however it was written. */
function entriesOf(settled: Settled, rules: readonly string[]): PlanValue['entries'] {
  const { metric, primary, bands, claim, margin, confidence, runs, order, method, conditions } = settled;
  const lines: [string, string | undefined][] = [
    ['question', settled.question],
    ['metric', metric && plannedMetric(metric)],
    ['channel', settled.channel],
    ['primary band', primary && bandText(primary)],
    ['other bands', bands && bandsText(bands)],
    ['claim', claim && claimText(claim)],
    ['source of the claim', settled.source],
    ['margin', margin === undefined ? undefined : percentText(100 * margin)],
    ['confidence', confidence === undefined ? undefined : percentText(100 * confidence)],
    ['method', method],
    ['runs of each', runs === undefined ? undefined : String(runs)],
    ['order', order && orderText([...order], conditions === undefined ? 4 : conditions.length + 1)],
    ['baseline', settled.baseline],
    ['conditions', conditions && listed(conditions)],
    ['pairs compared', settled.isAllPairs === true ? 'every two conditions' : undefined],
    ['within', settled.within && listed(settled.within)],
    ['adjusted by', settled.adjust?.map(adjustmentText).join(', ')],
    ['scatter', settled.isPooled === true ? 'one for all runs' : undefined],
    ...rules.map((rule, index): [string, string] => [`rule ${index + 1}`, rule]),
  ];
  return lines.flatMap(([word, text]) => (text === undefined ? [] : [{ word, text }]));
}

/** What a verdict will need and the plan does not settle. */
function openWarnings({ primary, bands, metric, channel, runs }: Settled): Warning[] {
  const hasBand =
    primary !== undefined ||
    bands !== undefined ||
    (metric !== undefined && (isOfSignal(metric) || lineOf(metric) !== undefined));
  const items: [OpenItem, boolean][] = [
    ['band', hasBand],
    ['channel', channel !== undefined],
    ['runs', runs !== undefined],
  ];
  const open = items.flatMap(([item, isSettled]) => (isSettled ? [] : [item]));
  return open.length === 0 ? [] : [tell('plan.open', { open })];
}
