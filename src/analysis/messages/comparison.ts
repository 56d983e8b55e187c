import { messages, type Sentences } from '../../result/messages.ts';
import type { Comparison } from '../../statistics/comparison.ts';
import { fewestRuns, type Method } from '../../statistics/methods.ts';
import type { Band } from '../../values/band.ts';
import { inBand } from '../bandWords.ts';
import { intervalText, percentText, signedPercentText, statedPercentText } from '../percents.ts';

// What a comparison found, in words for a reader without statistics, and the method it was found by.

export const withinTheseRuns = 'within these two runs only; not evidence about the change itself';

const methodNames: Readonly<Record<Method, string>> = {
  welch: 'Welch t interval on the logarithms of the runs',
  pooled: 'pooled t interval on the logarithms of the runs',
  paired: 'paired t interval on the logarithms of the runs',
  trend: 'linear trend over the run order taken out',
};

/** How a comparison was made, and of how many runs. */
export type MethodFacts = Pick<Comparison, 'method' | 'runsA' | 'runsB'>;

/** The method of a comparison and what it rests on, as a phrase; or why there is no interval. */
export function methodText({ method, runsA, runsB }: MethodFacts): string {
  if (method === 'one run each') return `one run each: ${withinTheseRuns}`;
  if (method === 'no inference')
    return `${runsA} + ${runsB} runs: too few to infer anything about other runs; at least ${fewestRuns} of each are needed`;
  return `${methodNames[method]}, ${runsA} + ${runsB} runs`;
}

/** What every result names: where it was found, the sides, and the change of B against A. */
export interface ResultPlace {
  /** Undefined of a level of the whole signal. */
  readonly band: Band | undefined;
  /** What was compared, where it is not the r.m.s. of a band. */
  readonly metric: string | undefined;
  readonly a: string;
  readonly b: string;
  readonly changePercent: number;
}

/** An interval in percent and its confidence, 0 to 1. */
export interface ResultInterval {
  readonly lowPercent: number;
  readonly highPercent: number;
  readonly confidence: number;
}

type Shown = ResultPlace & ResultInterval;

export interface ResultFacts {
  'result.lower': Shown;
  'result.higher': Shown;
  'result.equivalent': Shown;
  /** What the interval rules out, in percent. */
  'result.unclear': Shown & { readonly eitherWayPercent: number };
  /** Shown by itself, and not among the bands that were compared together. */
  'result.chance': Shown & { readonly bands: number; readonly pAdjusted: number };
  'result.one-run-each': ResultPlace & { readonly within: ResultInterval | undefined };
  'result.few-runs': ResultPlace & { readonly runsA: number; readonly runsB: number };
  'result.no-scatter': ResultPlace;
}

/** How a result begins: with the band, with the metric of the whole signal, or with both. */
function placeText({ band, metric }: ResultPlace): string {
  if (band === undefined) return `By the ${metric ?? 'r.m.s.'}`;
  return metric === undefined ? inBand(band) : `${inBand(band)}, by the ${metric},`;
}

const intervalOf = ({ confidence, lowPercent, highPercent }: ResultInterval): string =>
  `${statedPercentText(100 * confidence)} interval ${intervalText(lowPercent, highPercent)}`;

const found = (facts: Shown): string => `${signedPercentText(facts.changePercent)} (${intervalOf(facts)})`;

const measured = (facts: ResultPlace): string =>
  `${placeText(facts)} ${facts.b} measured ${signedPercentText(facts.changePercent)} against ${facts.a}`;

const probability = (p: number): string => (p < 0.001 ? 'below 0.001' : p.toFixed(p < 0.1 ? 3 : 2));

const sentences: Sentences<ResultFacts> = {
  'result.lower': (facts) => `${placeText(facts)} ${facts.b} vibrates less than ${facts.a}: ${found(facts)}.`,
  'result.higher': (facts) => `${placeText(facts)} ${facts.b} vibrates more than ${facts.a}: ${found(facts)}.`,
  'result.equivalent': (facts) =>
    `${placeText(facts)} ${facts.b} and ${facts.a} are practically the same: ${found(facts)}, within the margin stated.`,
  'result.unclear': (facts) =>
    `${placeText(facts)} no difference is shown: ${found(facts)}. The data rule out a change of more than ${percentText(facts.eitherWayPercent)} either way, but do not show that there is none.`,
  'result.chance': (facts) =>
    `${placeText(facts)} no difference is shown: ${found(facts)} would show one if it stood alone, but ${facts.bands} bands were compared, and then it may be chance (p ${probability(facts.pAdjusted)} for all of them).`,
  'result.one-run-each': (facts) =>
    `${measured(facts)} (one run each${facts.within === undefined ? '' : `; ${intervalOf(facts.within)} within these two runs only`}): that is no evidence about the change itself.`,
  'result.few-runs': (facts) =>
    `${measured(facts)} (${facts.runsA} + ${facts.runsB} runs): too few runs to say whether the change is real.`,
  'result.no-scatter': (facts) =>
    `${measured(facts)} (the runs do not scatter at all): nothing says whether the change is real.`,
};

export const { tell } = messages<ResultFacts>(sentences);
