import { allOf, capitalised, counted, listed } from '../../result/words.ts';
import type { Method } from '../../statistics/methods.ts';
import type { Band } from '../../values/band.ts';
import { reachText, type Fittings } from '../../values/fittings.ts';
import type { PlannedAdjustment } from '../../values/plan.ts';
import { bandsText } from '../bandWords.ts';
import { marginText, statedPercentText } from '../percents.ts';
import { methodNames } from './comparison.ts';

// What a paragraph on methods says of a comparison: the order of its runs, what was compared, and by what inference.

/** In what order the runs of a comparison were made. */
export interface OrderFacts {
  /** Names of the sides, the baseline first; the reference, where there is one, after them. */
  readonly names: readonly string[];
  readonly hasReference: boolean;
  /** Letters of the sides in the order of the runs, of each stratum by itself; undefined where it is not known. */
  readonly orders: readonly { readonly stratum: string | undefined; readonly letters: string | undefined }[];
  /** The design that the orders are of; undefined where they are of none with a name. */
  readonly design: 'williams' | 'blocks' | undefined;
}

const designs = {
  williams: ': rows of a Williams design, each beside its mirror image (Williams 1949)',
  blocks: ': blocks that hold each once',
} as const;

/** The names of strata in a sentence; those of several columns hold a comma. */
export const strataText = (names: readonly string[]): string =>
  listed(names.map((name) => (name.includes(',') ? `(${name})` : name)));

/** So many letters of an order are told one by one, a block that is made again and again has so many, and so many begin a longer order. */
const [lettersTold, longestBlock, lettersBegun] = [40, 12, 12];

/** An order of runs; a long one as what it repeats, or by how it begins. */
function spaced(order: string | undefined): string {
  const letters = [...(order ?? '')];
  const told = (some: readonly string[]): string => some.join(' ');
  if (letters.length <= lettersTold) return told(letters);
  for (let block = 1; block <= longestBlock; block++)
    if (letters.length % block === 0 && letters.every((letter, k) => letter === letters[k % block]))
      return `${told(letters.slice(0, block))}, ${letters.length / block} times over`;
  return `${told(letters.slice(0, lettersBegun))} … (the first ${lettersBegun} of ${letters.length} runs)`;
}

/** In what order the runs were made, and of which design that is. @param isOneOfSeveral whether other runs are told of beside these */
export function orderText({ names, hasReference, orders, design }: OrderFacts, isOneOfSeveral: boolean): string {
  const own = hasReference ? names.slice(0, -1) : names;
  if (orders.some(({ letters }) => letters === undefined))
    return `The order of the runs of ${listed(own)} is not known.`;
  const called = names.map(
    (name, k) => `${String.fromCharCode('A'.charCodeAt(0) + k)} ${k === 0 ? 'being ' : ''}${name}`,
  );
  const legend = `${listed(called)}${hasReference ? ' (reference runs)' : ''}`;
  const as = design === undefined ? '' : designs[design];
  const they = isOneOfSeveral ? `those of ${listed(own)}` : 'they';
  const [first] = orders;
  if (orders.every(({ letters }) => letters === first.letters)) {
    const where = orders.length === 1 ? '' : `in each of ${strataText(orders.flatMap(({ stratum = [] }) => stratum))} `;
    return `${capitalised(where + they)} were made in the order ${spaced(first.letters)}, ${legend}${as}.`;
  }
  const each = orders.map(({ stratum, letters }) => `${spaced(letters)} (${stratum})`);
  return `${capitalised(they)} were made in the orders ${listed(each)}, ${legend}${as}.`;
}

/** What holds together, and of how many rows it is. */
export interface HeldTogether {
  readonly of: 'primary' | 'others' | 'within';
  readonly rows: number;
}

/** What the statistics of a comparison rest on. */
export interface StatisticsFacts {
  readonly metric: string;
  readonly baseline: string;
  readonly conditions: readonly string[];
  readonly isAllPairs: boolean;
  readonly bands: readonly (Band & { readonly primary: boolean | undefined })[];
  /** More than one, or none. */
  readonly axes: readonly string[];
  readonly strata: { readonly columns: readonly string[]; readonly names: readonly string[] } | undefined;
  readonly adjusted: readonly PlannedAdjustment[];
  readonly references: number;
  /** In words, with the numbers of runs; the method's word; and those of rows within strata that are otherwise. */
  readonly method: string;
  readonly methodCode: string;
  readonly methodsWithin: readonly string[];
  /** How many pairs or days there are, as the run sheet names them; 0 pairs are neighbouring runs. */
  readonly pairs: number;
  readonly days: number;
  /** What the run sheet tells of refits; undefined where nothing is inferred. */
  readonly fittings: Fittings | undefined;
  /** Where strata are days: of which days the changes speak. */
  readonly speaksOf: 'these days' | 'other days' | undefined;
  /** Whether it is told whether changes differ between strata. */
  readonly areHeldApart: boolean;
  readonly isPooled: boolean;
  /** 0 to 1. */
  /** Undefined where nothing is inferred. */
  readonly confidence: number | undefined;
  readonly together: readonly HeldTogether[];
  /** As a fraction. */
  readonly margin: number | undefined;
}

const satterthwaite = 'least squares, with degrees of freedom by Satterthwaite 1946';
const nested =
  'runs nested in refits as in Montgomery, Design and Analysis of Experiments, 14.1; degrees of freedom by Satterthwaite 1946';
const sources: Readonly<Record<Method, string>> = {
  welch: 'Welch 1947, with degrees of freedom by Satterthwaite 1946',
  paired: 'Student 1908',
  days: satterthwaite,
  trend: satterthwaite,
  curve: satterthwaite,
  strata: 'Welch 1947, with degrees of freedom by Satterthwaite 1946',
  'over-days': 'Student 1908',
  refits: nested,
  'refits-trend': nested,
};

const isMethod = (code: string): code is Method => Object.hasOwn(sources, code);
const sourceOf = (code: string): string => (isMethod(code) ? ` (${sources[code]})` : '');
const nameOf = (code: string): string => (isMethod(code) ? methodNames[code] : 'none, for there are too few runs');

/** What was compared and by what inference, in whole sentences. */
export const statisticsText = (facts: StatisticsFacts): string =>
  [
    changesText(facts),
    strataSentence(facts),
    ...facts.adjusted.map(adjustedText),
    facts.references === 0
      ? ''
      : `${counted(facts.references, 'reference run')} made in between help to tell the drift.`,
    layoutText(facts),
    inferenceText(facts),
    togetherText(facts),
    facts.fittings === undefined ? '' : reachText(facts.fittings),
    facts.margin === undefined
      ? ''
      : `Changes count as none where the whole interval lies within ${marginText(facts.margin)}.`,
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');

function changesText({ metric, baseline, conditions, isAllPairs, bands, axes }: StatisticsFacts): string {
  const primary = bands.filter((one) => one.primary === true);
  const about = primary.length > 0 ? `, primary ${bandsText(primary)}` : '';
  const where = `in ${bandsText(bands)}${about}${axes.length > 1 ? `, on each of the axes ${listed(axes)}` : ''}`;
  const ratio = 'the ratio of the geometric means over the runs less 1';
  if (conditions.length === 1)
    return `The change of ${metric} is that of ${conditions[0]} against ${baseline}, ${ratio}, ${where}.`;
  const held = isAllPairs
    ? `every two of ${listed([baseline, ...conditions])}`
    : `${listed(conditions.map((name, k) => (k === 0 ? name : `of ${name}`)))} against ${baseline}`;
  return `The changes of ${metric} are those of ${held}, each ${ratio}, ${where}.`;
}

function strataSentence({ strata, speaksOf, areHeldApart }: StatisticsFacts): string {
  if (strata === undefined) return '';
  const days =
    speaksOf === undefined
      ? ''
      : ` The changes over all speak of ${speaksOf}${speaksOf === 'other days' ? ' like them' : ' alone'}.`;
  const apart = areHeldApart
    ? ' Whether changes differ between them is told by the F of interaction in an analysis of variance, which assumes equal scatter of all runs (Montgomery, Design and Analysis of Experiments, 5.3), without a verdict.'
    : '';
  return `Each is given within each ${strata.columns.join(' and ')} (${strataText(strata.names)}) and over all of them, as the mean of the logarithms with equal weights.${days}${apart}`;
}

const adjustedText = ({ column, exponent, uncertainty }: PlannedAdjustment): string =>
  exponent === undefined
    ? `The part of ${column} was fitted, a common slope of all runs, and taken out.`
    : `Levels were brought to equal ${column} by a stated exponent, ${exponent}${uncertainty === undefined ? '' : ` ± ${uncertainty}, whose standard uncertainty widens the intervals`}.`;

/** Pairs and days that the inference rests on. */
function layoutText({ methodCode, pairs, days }: StatisticsFacts): string {
  if (methodCode === 'paired')
    return pairs === 0
      ? 'Runs that followed one another make a pair.'
      : `The run sheet names ${counted(pairs, 'pair')}.`;
  return methodCode === 'days' && days > 0
    ? `The runs were made on ${counted(days, 'day')}, each with a level of its own.`
    : '';
}

function inferenceText({
  method,
  methodCode,
  methodsWithin,
  isPooled,
  conditions,
  isAllPairs,
  confidence,
}: StatisticsFacts): string {
  const within = methodsWithin.length === 0 ? '' : `; within single strata ${listed(methodsWithin.map(nameOf))}`;
  const many = isAllPairs && conditions.length > 1 ? 'Tukey’s (Kramer 1956)' : 'Dunnett’s (Dunnett 1955)';
  const scatter = isPooled
    ? `; one scatter for all runs${conditions.length > 1 ? `, and the limits are ${many}` : ''}`
    : '';
  return `Inference: ${method}${sourceOf(methodCode)}${within}${scatter}${confidence === undefined ? '' : `; confidence ${statedPercentText(100 * confidence)}`}.`;
}

const whose = {
  primary: 'those of the primary band',
  others: 'those of the other bands',
  within: 'those within single strata',
} as const;

/** For how many rows the intervals hold together. */
function togetherText({ conditions, axes, strata, together, isPooled }: StatisticsFacts): string {
  const by =
    isPooled && conditions.length > 1
      ? 'by these limits and, over bands, Bonferroni’s inequality (Dunn 1961)'
      : 'by Bonferroni’s inequality (Dunn 1961)';
  const several = together.filter(({ rows }) => rows > 1);
  if (several.length === 0) return '';
  if (conditions.length === 1 && axes.length < 2 && strata === undefined) {
    return `The intervals hold for ${allOf(several[0].rows, together.length > 1 ? 'other bands' : 'bands')} together, ${by}.`;
  }
  const [first, ...rest] = several.map(
    ({ of, rows }, k) =>
      `${k === 0 && together.length === 1 ? '' : `${whose[of]} `}${k === 0 ? 'hold ' : ''}for ${allOf(rows, 'changes')} together`,
  );
  return together.length === 1
    ? `The intervals ${first}, ${by}.`
    : `Of the intervals ${listed([first, ...rest])}, ${by}.`;
}
