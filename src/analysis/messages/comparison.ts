import { messages, type Sentences } from '../../result/messages.ts';
import { allOf, capitalised, counted, listed } from '../../result/words.ts';
import type { Comparison } from '../../statistics/comparison.ts';
import { fewestRuns, type Method } from '../../statistics/methods.ts';
import type { Band } from '../../values/band.ts';
import { probability, significant } from '../../values/number.ts';
import type { PlannedAdjustment } from '../../values/plan.ts';
import { bandText } from '../bandWords.ts';
import { intervalText, marginText, percentText, signedPercentText, sizesText, statedPercentText } from '../percents.ts';

// What a comparison found, in words that may be printed, and the method it was found by.

/** How an interval was made, as a phrase. */
export const methodNames: Readonly<Record<Method, string>> = {
  welch: 'Welch t interval on the logarithms of the runs, order not known',
  paired: 't interval on the logarithms of the runs, compared in pairs',
  days: 't interval on the logarithms of the runs, differences between days taken out',
  trend: 't interval on the logarithms of the runs, steady drift taken out',
  curve: 't interval on the logarithms of the runs, steady and curved drift taken out',
  strata: 'Welch t interval on the logarithms of the runs in each stratum',
  'over-days': 't interval on the changes of the days',
  refits: 't interval on the means of the refits',
  'refits-trend': 't interval on the means of the refits, steady drift taken out',
};

/** How a comparison was made, and of how many runs: of both sides, and of each where there are more. */
export type MethodFacts = Pick<Comparison, 'method' | 'runsA' | 'runsB'> & { readonly counts?: readonly number[] };

/** The method of a comparison and what it rests on, as a phrase; or why there is no interval. */
export function methodText({ method, runsA, runsB, counts = [runsA, runsB] }: MethodFacts): string {
  const runs = `${counts.join(' + ')} runs`;
  if (method === 'one run each') return 'one run each, which says nothing about other runs';
  if (method === 'no inference')
    return `${runs}: too few to infer anything about other runs; at least ${fewestRuns} of each are needed`;
  return `${methodNames[method]}, ${runs}`;
}

/** A sensor, and how well its sensitivity is known. @property relative standard uncertainty */
export interface SensorWords {
  readonly sensor: string;
  readonly relative: number;
}

/** `ACC-1 and ACC-2 (2 % each)`, `ACC-1 (2 %) and ACC-2 (1 %)`. @param sensors at least one */
export function sensorsText(sensors: readonly SensorWords[]): string {
  const [first, ...others] = sensors.map(({ relative }) => statedPercentText(100 * relative));
  if (others.length === 0) return `${sensors[0].sensor} (${first})`;
  if (others.every((other) => other === first)) return `${listed(sensors.map(({ sensor }) => sensor))} (${first} each)`;
  return listed(sensors.map(({ sensor, relative }) => `${sensor} (${statedPercentText(100 * relative)})`));
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
  /** The stratum that it is of, or all of them that were put together: `flow low`. */
  readonly stratum?: string | undefined;
  readonly combined?: readonly string[] | undefined;
  /** Of days that were put together: whether it speaks of these, or of other days like them. */
  readonly days?: 'these' | 'other' | undefined;
  /** What was taken out of the levels. */
  readonly adjusted?: readonly PlannedAdjustment[];
  /** Sensors whose calibration is in the interval, since they have more part in one side than in the other. */
  readonly sensors?: readonly SensorWords[];
  /** Whether one scatter stands for all runs, as planned; default no. */
  readonly isPooled?: boolean;
  /** How many reference runs tell of the drift. */
  readonly references?: number;
  /** What the rows that hold together are. */
  readonly together?:
    `${'' | 'other '}${'bands' | 'changes'}` | 'changes in the primary band' | 'changes within strata';
}

/** An interval in percent, its confidence, 0 to 1, and for how many rows together it holds. */
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
  /** What the interval rules out, in percent; and the margin, where there is one. */
  'result.not-shown': Shown & { readonly eitherWayPercent: number; readonly margin?: number | undefined };
  /** All runs of one side came before the other's. */
  'result.apart': Shown;
  /** No day has runs of both sides. */
  'result.other-days': Shown;
  /** A band that was asked for after others had been compared. */
  'result.unplanned': Shown;
  /** Reasons outside the figures forbid it; each a clause. */
  'result.withheld': Shown & { readonly reasons: readonly string[] };
  /** Whether a change differs between strata: its F, its degrees of freedom, and p for so many rows together. */
  'result.interaction': Omit<ResultPlace, 'changePercent'> & {
    readonly f: number;
    readonly df: readonly [numerator: number, denominator: number];
    readonly p: number;
    readonly family: number;
  };
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
  strata: ', scatter taken within strata',
  'over-days': ', with the scatter from day to day',
  refits: ', with the scatter from refit to refit',
  'refits-trend': ', with the scatter from refit to refit, steady drift taken out',
};

function runsText(place: ResultPlace): string {
  const { runsA, runsB, order, method } = place;
  const isRead = order !== undefined && order.length <= lettersRead;
  const how = method === 'one run each' || method === 'no inference' ? '' : methodPhrases[method];
  return `${runsA} + ${runsB} runs${isRead ? ` in order ${order}` : ''}${how}${besidesText(place)}`;
}

/** What else is in the figures: a scatter that is one for all, reference runs, covariates, and of which days it is. */
function besidesText({ references = 0, adjusted = [], sensors = [], days, isPooled = false }: ResultPlace): string {
  const taken = adjusted.map(({ column, exponent, uncertainty }) =>
    exponent === undefined
      ? `, the part of ${column} fitted and taken out`
      : `, at equal ${column} by the exponent ${exponent}${uncertainty === undefined ? '' : ` ± ${uncertainty}`}`,
  );
  return [
    isPooled ? ', one scatter for all as planned' : '',
    references === 0 ? '' : `, with ${counted(references, 'reference run')}`,
    ...taken,
    sensors.length === 0 ? '' : `, with the calibration of ${sensorsText(sensors)} in the interval`,
    days === undefined ? '' : days === 'these' ? ', on these days' : ', as on other days like these',
  ].join('');
}

function subject({ level, channel, band, stratum, combined }: ResultPlace): string {
  const where = [channel, ...(band === undefined ? [] : [bandText(band)]), ...(stratum === undefined ? [] : [stratum])];
  const over = combined === undefined ? '' : `; ${listed(combined)} with equal weights`;
  return `${level} (${where.join(', ')}${over})`;
}

function intervalPhrase({ confidence, family, together = 'bands' }: Shown, text: string): string {
  const share = statedPercentText(100 * confidence);
  return family === 1
    ? `${share} interval ${text}`
    : `interval ${text}, ${share} for ${allOf(family, together)} together`;
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

/** What beside the conditions and strata is taken out where changes are held against each other. */
const takenOut: Readonly<Partial<Record<Method, string>>> = {
  paired: ', differences between pairs taken out',
  days: ', differences between days taken out',
  trend: ', steady drift taken out',
  curve: ', steady and curved drift taken out',
};

function interactionText(facts: ResultFacts['result.interaction']): string {
  const { level, channel, band, combined = [], a, b, f, df, p, family, together = 'bands', method } = facts;
  const where = [channel, ...(band === undefined ? [] : [bandText(band)])].join(', ');
  const chance = `p ${probability(p)}${family === 1 ? '' : ` for ${allOf(family, together)} together`}`;
  const taken = method === 'one run each' || method === 'no inference' ? '' : (takenOut[method] ?? '');
  const exact = (facts.adjusted ?? []).some(({ uncertainty }) => uncertainty !== undefined);
  return `Whether the change of ${level} (${where}) from ${a} to ${b} differs between ${listed(combined)}: F ${significant(f, 3)} with ${df[0]} and ${df[1]} degrees of freedom, ${chance} (analysis of variance, which assumes equal scatter of all these runs${taken}${exact ? ', the exponent taken as exact' : ''}). No verdict rests on it.`;
}

const sentences: Sentences<ResultFacts> = {
  'result.lower': (facts) => directed(facts, 'lower'),
  'result.higher': (facts) => directed(facts, 'higher'),
  'result.equivalent': (facts) =>
    `${capitalised(subject(facts))} was the same within ±${statedPercentText(100 * facts.margin)} with ${facts.b} and with ${facts.a}: ${changed(facts)}.`,
  'result.not-shown': (facts) =>
    `${difference(facts)}: ${changed(facts)}. The data rule out a change of more than ${percentText(facts.eitherWayPercent)} either way, but ${facts.margin === undefined ? 'do not show that there is none' : `show neither that there is none nor that it lies within ${marginText(facts.margin)}`}.`,
  'result.apart': (facts) =>
    `${difference(facts)}, because all runs of one came before the other’s and a drift would look the same: ${changed(facts)}.`,
  'result.other-days': (facts) =>
    `${difference(facts)}, because no day has runs of both and what differs between days would look the same: ${changed(facts)}.`,
  'result.unplanned': (facts) =>
    `${difference(facts)}, because it is not among the bands compared: ${changed(facts)}, unplanned.`,
  'result.withheld': (facts) =>
    `${difference(facts)}: ${changed(facts)} was measured, but ${facts.reasons.join('; ')}.`,
  'result.interaction': interactionText,
  'result.one-run-each': (facts) => measured(facts, 'which says nothing about other runs'),
  'result.few-runs': (facts) => measured(facts, `and at least ${fewestRuns} of each are needed`),
  'result.no-scatter': (facts) => measured(facts, 'which do not scatter at all, as real runs do'),
};

export const { tell } = messages<ResultFacts>(sentences);
