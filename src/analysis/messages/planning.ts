import { messages, type Sentences } from '../../result/messages.ts';
import { counted, listed } from '../../result/words.ts';
import type { Band } from '../../values/band.ts';
import { bandsText, bandText } from '../bandWords.ts';
import { percentText, statedPercentText } from '../percents.ts';

// Why a plan can't be stated, what it leaves open, and where a result departs from it.

export interface PlanningFacts {
  'plan.question': object;
  /** What is written otherwise than in letters from A on; or how many of each letter, where they are not the runs of each. */
  'plan.order': { readonly text: string } | { readonly counts: readonly number[]; readonly runs: number };
  'plan.open': { readonly open: readonly OpenItem[] };
  /** Fractions. */
  'repeats.power': { readonly power: number; readonly confidence: number };
  /** How many bands were compared. */
  'compare.unplanned': { readonly bands: number };
  /** `deviation` is a clause, as `deviation` gives it. */
  'plan.deviates': { readonly plan: string; readonly deviation: string };
}

/** What a verdict needs and a plan may leave open. */
export type OpenItem = 'band' | 'channel' | 'runs';

const openItems: Readonly<Record<OpenItem, string>> = {
  band: 'a band (primary 10..50 Hz)',
  channel: 'a channel (channel z)',
  runs: 'the number of runs (repeats 4)',
};

const letterAt = (index: number): string => String.fromCharCode('A'.charCodeAt(0) + index);

const sentences: Sentences<PlanningFacts> = {
  'plan.question': () => 'A plan begins with its question, in quotes.',
  'plan.order': (facts) =>
    'text' in facts
      ? `An order is written in the letters A and B (and C, D … of further conditions), as in "ABBA BAAB", and not as "${facts.text}".`
      : `The order holds ${listed(facts.counts.map((count, k) => `${count}${k === 0 ? ' runs' : ''} of ${letterAt(k)}`))}, and repeats says ${facts.runs} of each.`,
  'plan.open': ({ open }) =>
    `The plan leaves open what can no longer be settled once the data are seen: ${open.map((item) => openItems[item]).join(', ')}.`,
  'repeats.power': ({ power, confidence }) =>
    `At a confidence of ${statedPercentText(100 * confidence)} a test shows a change in ${statedPercentText(100 * (1 - confidence))} of cases by chance alone: ask for a power above that, and not for ${statedPercentText(100 * power)}.`,
  'compare.unplanned': ({ bands }) =>
    `Nothing here shows ${bands === 1 ? 'that this band was' : 'that these bands were'} chosen before the data were seen: state it beforehand in a plan cell, as in p = plan "…" primary 10..50 Hz, and give the comparison "plan p".`,
  'plan.deviates': ({ plan, deviation }) => `This is not as planned in ${plan}: ${deviation}.`,
};

export const { tell, refuse } = messages<PlanningFacts>(sentences);

interface Otherwise<T> {
  readonly planned: T;
  /** Undefined where the result has none. */
  readonly is: T | undefined;
}

/** What a result does otherwise than was planned. The message of each is a clause; fractions are shares of 1. */
export interface DeviationFacts {
  'deviation.metric': Otherwise<string>;
  'deviation.channel': Otherwise<string>;
  'deviation.confidence': Otherwise<number>;
  'deviation.margin': Otherwise<number>;
  'deviation.method': Otherwise<string>;
  'deviation.primary': Otherwise<Band>;
  'deviation.bands-added': { readonly bands: readonly Band[] };
  'deviation.bands-missing': { readonly bands: readonly Band[] };
  /** Runs of each; of A and of B. */
  /** Runs of each condition: one list, or one a stratum. */
  'deviation.runs': { readonly planned: number; readonly counts: readonly (readonly number[])[] };
  'deviation.baseline': Otherwise<string>;
  'deviation.conditions': { readonly planned: readonly string[]; readonly are: readonly string[] };
  'deviation.all-pairs': { readonly planned: boolean };
  'deviation.within': { readonly planned: readonly string[]; readonly are: readonly string[] };
  'deviation.adjust': { readonly planned: readonly string[]; readonly are: readonly string[] };
  /** As letters; undefined where the order is not known. */
  'deviation.order': Otherwise<string>;
  'deviation.excluded': object;
}

const otherwise = (what: string, planned: string, is: string | undefined): string =>
  `${what} was planned as ${planned} and is ${is ?? 'none'}`;

const wasOf = (bands: readonly unknown[]): string => (bands.length === 1 ? 'was' : 'were');

const columnsText = (columns: readonly string[]): string => (columns.length === 0 ? 'none' : listed(columns));

const share = (fraction: number): string => percentText(100 * fraction);
const shareIfAny = (fraction: number | undefined): string | undefined =>
  fraction === undefined ? undefined : share(fraction);

const deviationClauses: Sentences<DeviationFacts> = {
  'deviation.metric': ({ planned, is }) => otherwise('the metric', planned, is),
  'deviation.channel': ({ planned, is }) => otherwise('the channel', planned, is),
  'deviation.confidence': ({ planned, is }) => otherwise('the confidence', share(planned), shareIfAny(is)),
  'deviation.margin': ({ planned, is }) => otherwise('the margin', share(planned), shareIfAny(is)),
  'deviation.method': ({ planned, is }) => otherwise('the method', planned, is),
  'deviation.primary': ({ planned, is }) =>
    `the primary band was planned as ${bandText(planned)} and ${is === undefined ? 'none is named' : `it is ${bandText(is)}`}`,
  'deviation.bands-added': ({ bands }) => `${bandsText(bands)} ${wasOf(bands)} not among the bands planned`,
  'deviation.bands-missing': ({ bands }) =>
    `${bandsText(bands)} ${wasOf(bands)} planned and ${bands.length === 1 ? 'is' : 'are'} not compared`,
  'deviation.runs': ({ planned, counts }) =>
    `${counted(planned, 'run')} of each${counts.length > 1 ? ' in every stratum' : ''} ${planned === 1 ? 'was' : 'were'} planned and there are ${listed(counts.map((list) => list.join(' + ')))}`,
  'deviation.baseline': ({ planned, is }) => otherwise('the baseline', planned, is),
  'deviation.conditions': ({ planned, are }) => otherwise('what is held against it', listed(planned), listed(are)),
  'deviation.all-pairs': ({ planned }) =>
    planned
      ? 'every two conditions were planned to be compared, and each is with the baseline alone'
      : 'each condition was planned to be compared with the baseline alone, and every two are',
  'deviation.within': ({ planned, are }) => otherwise('the strata', columnsText(planned), columnsText(are)),
  'deviation.adjust': ({ planned, are }) => otherwise('the adjustment', columnsText(planned), columnsText(are)),
  'deviation.order': ({ planned, is }) =>
    `the order was planned as ${planned} and ${is === undefined ? 'is not known: give it in the run sheet' : `was ${is}`}`,
  'deviation.excluded': () => 'runs that the sheet excludes were taken in',
};

export const { tell: deviation } = messages<DeviationFacts>(deviationClauses);
