import { messages, type Sentences } from '../../result/messages.ts';
import { capitalised } from '../../result/words.ts';
import type { Comparison } from '../../statistics/comparison.ts';
import { fewestRuns, type Method } from '../../statistics/methods.ts';
import type { Band } from '../../values/band.ts';
import { bandText } from '../bandWords.ts';
import { intervalText, percentText, signedPercentText, sizesText, statedPercentText } from '../percents.ts';

// What a comparison found, in words that may be printed, and the method it was found by.

const methodNames: Readonly<Record<Method, string>> = {
  welch: 'Welch t interval on the logarithms of the runs, order not known',
  paired: 't interval on the logarithms of the runs, compared in pairs',
  days: 't interval on the logarithms of the runs, differences between days taken out',
  trend: 't interval on the logarithms of the runs, steady drift taken out',
  curve: 't interval on the logarithms of the runs, steady and curved drift taken out',
  strata: 'Welch t interval on the logarithms of the runs in each stratum',
  'over-days': 't interval on the changes of the days',
};

/** How a comparison was made, and of how many runs. */
export type MethodFacts = Pick<Comparison, 'method' | 'runsA' | 'runsB'>;

/** The method of a comparison and what it rests on, as a phrase; or why there is no interval. */
export function methodText({ method, runsA, runsB }: MethodFacts): string {
  if (method === 'one run each') return 'one run each, which says nothing about other runs';
  if (method === 'no inference')
    return `${runsA} + ${runsB} runs: too few to infer anything about other runs; at least ${fewestRuns} of each are needed`;
  return `${methodNames[method]}, ${runsA} + ${runsB} runs`;
}

/** What every result names: what was measured and where, the sides, the change of B against A, and the runs. */
export interface ResultPlace extends MethodFacts {
  /** What was measured: `acceleration r.m.s.`. */
  readonly level: string;
  readonly channel: string;
  /** Undefined of a level of the whole signal. */
  readonly band: Band | undefined;
  readonly a: string;
  readonly b: string;
  readonly changePercent: number;
  /** As letters, where it is known: `ABBABAAB`. */
  readonly order: string | undefined;
}

/** An interval in percent, its confidence, 0 to 1, and for how many bands together it holds. */
export interface ResultInterval {
  readonly lowPercent: number;
  readonly highPercent: number;
  readonly confidence: number;
  readonly family: number;
}

type Shown = ResultPlace & ResultInterval;

export interface ResultFacts {
  'result.lower': Shown;
  'result.higher': Shown;
  /** A fraction: changes within it count as none. */
  'result.equivalent': Shown & { readonly margin: number };
  /** What the interval rules out, in percent. */
  'result.not-shown': Shown & { readonly eitherWayPercent: number };
  /** All runs of one side came before the other's. */
  'result.apart': Shown;
  /** A band that was asked for after others had been compared. */
  'result.unplanned': Shown;
  'result.one-run-each': ResultPlace;
  'result.few-runs': ResultPlace;
  'result.no-scatter': ResultPlace;
}

/** Longer orders are not read letter by letter. */
const lettersRead = 24;

const methodPhrases: Readonly<Record<Method, string>> = {
  welch: ', order not known',
  paired: ', compared in pairs',
  days: ', differences between days taken out',
  trend: ', steady drift taken out',
  curve: ', steady and curved drift taken out',
  strata: ', each stratum with its own scatter',
  'over-days': ', with the scatter from day to day',
};

function runsText({ runsA, runsB, order, method }: ResultPlace): string {
  const isRead = order !== undefined && order.length <= lettersRead;
  const how = method === 'one run each' || method === 'no inference' ? '' : methodPhrases[method];
  return `${runsA} + ${runsB} runs${isRead ? ` in order ${order}` : ''}${how}`;
}

const subject = ({ level, channel, band }: ResultPlace): string =>
  `${level} (${channel}${band === undefined ? '' : `, ${bandText(band)}`})`;

function intervalPhrase({ confidence, family }: ResultInterval, text: string): string {
  const share = statedPercentText(100 * confidence);
  return family === 1 ? `${share} interval ${text}` : `interval ${text}, ${share} for all ${family} bands together`;
}

const changed = (facts: Shown): string =>
  `${signedPercentText(facts.changePercent)} (${intervalPhrase(facts, intervalText(facts.lowPercent, facts.highPercent))}; ${runsText(facts)})`;

function directed(facts: Shown, word: 'lower' | 'higher'): string {
  const { changePercent, lowPercent, highPercent } = facts;
  const ends = word === 'lower' ? [-highPercent, -lowPercent] : [lowPercent, highPercent];
  return `${capitalised(subject(facts))} was ${percentText(changePercent)} ${word} with ${facts.b} than with ${facts.a} (${intervalPhrase(facts, sizesText(ends[0], ends[1]))}; ${runsText(facts)}).`;
}

const difference = (facts: ResultPlace): string =>
  `A difference in ${subject(facts)} between ${facts.b} and ${facts.a} is not shown`;

const measured = (facts: ResultPlace, why: string): string =>
  `${difference(facts)}: ${signedPercentText(facts.changePercent)} was measured in ${runsText(facts)}, ${why}.`;

const sentences: Sentences<ResultFacts> = {
  'result.lower': (facts) => directed(facts, 'lower'),
  'result.higher': (facts) => directed(facts, 'higher'),
  'result.equivalent': (facts) =>
    `${capitalised(subject(facts))} was the same within ±${percentText(100 * facts.margin)} with ${facts.b} and with ${facts.a}: ${changed(facts)}.`,
  'result.not-shown': (facts) =>
    `${difference(facts)}: ${changed(facts)}. The data rule out a change of more than ${percentText(facts.eitherWayPercent)} either way, but do not show that there is none.`,
  'result.apart': (facts) =>
    `${difference(facts)}, because all runs of one came before the other’s and a drift would look the same: ${changed(facts)}.`,
  'result.unplanned': (facts) =>
    `${difference(facts)}, because it is not among the bands compared: ${changed(facts)}, unplanned.`,
  'result.one-run-each': (facts) => measured(facts, 'which says nothing about other runs'),
  'result.few-runs': (facts) => measured(facts, `and at least ${fewestRuns} of each are needed`),
  'result.no-scatter': (facts) => measured(facts, 'which do not scatter at all, as real runs do'),
};

export const { tell } = messages<ResultFacts>(sentences);
