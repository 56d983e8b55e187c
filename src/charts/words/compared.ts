import {
  hasSeveral,
  isInferred,
  isOfSignal,
  placesOfRow,
  sideWords,
  sidesIn,
  type ComparisonValue,
} from '../../values/comparison.ts';
import { outcomeWord, type ComparisonRow } from '../../values/comparisonParts.ts';
import { allOf, capitalised, counted, listed } from '../../result/words.ts';
import { layout } from '../layout.ts';
import { spaced } from './limits.ts';
import { bandName, distinct, sentence } from './names.ts';
import { interval, percent, signed } from '../../values/number.ts';

/** What a row of a comparison is of: its band, or the whole signal. */
export const bandOfRow = (value: ComparisonValue, { band }: ComparisonRow): string =>
  isOfSignal(value.metricCode) ? 'whole signal' : bandName(band);

/** What a row of a comparison is called: by its band, and by what else tells it from the others. */
export const comparedName = (value: ComparisonValue, row: ComparisonRow): string =>
  [bandOfRow(value, row), ...placesOfRow(value, row).map(([, name]) => name)].join(', ');

/** What is held against the baseline, in words: `rubber and cork`. */
export const conditionNames = (value: ComparisonValue): string =>
  listed(
    sidesIn(value)
      .slice(1)
      .map(({ name }) => name),
  );

const primaryOf = ({ rows }: ComparisonValue): ComparisonRow | undefined =>
  rows.find(({ primary, stratum }) => primary === true && stratum === undefined);

/** Rows that hold together, and what they are called: a primary band, the others, and those within strata are families of their own. */
function familiesOf(
  value: ComparisonValue,
): readonly { readonly rows: number; readonly what: string; readonly one: string }[] {
  const { rows, family = 1 } = value;
  const [several, single] = hasSeveral(value) ? ['changes', 'change'] : ['bands', 'band'];
  const first = primaryOf(value);
  // With too few runs within them there is nothing to hold.
  const within = rows.find(({ stratum, lowPercent }) => stratum !== undefined && lowPercent !== undefined);
  const hasOthers = rows.some(({ stratum, primary }) => stratum === undefined && primary !== true);
  const other = first === undefined ? '' : 'other ';
  return [
    ...(first === undefined ? [] : [{ rows: first.family, what: inPrimary, one: 'primary band' }]),
    ...(hasOthers ? [{ rows: family, what: `${other}${several}`, one: `${other}${single}` }] : []),
    ...(within === undefined
      ? []
      : [{ rows: within.family, what: 'changes within strata', one: 'change within strata' }]),
  ];
}

/** What the printed intervals are: for all bands, or all changes, together; of several families the sentence says which. */
export function intervalName(value: ComparisonValue): string {
  const families = familiesOf(value);
  return families.length === 1
    ? togetherName(value, families[0].rows, families[0].what)
    : `${percent(value.confidence)} interval`;
}

/** For what the intervals and p of several families hold; empty where there is one, or each row stands by itself. */
export function familiesSentence(value: ComparisonValue): string {
  const families = familiesOf(value);
  if (families.length < 2 || families.every(({ rows }) => rows === 1) || !isInferred(value)) return '';
  const each = families.map(({ rows, what, one }) =>
    rows === 1 ? `for the ${one} by itself` : `for ${allOf(rows, what)} together`,
  );
  return `The intervals and p hold ${listed(each)}.`;
}

/** The same of one row: those of the primary band, the others and those within strata are families of their own. */
export function rowIntervalName(value: ComparisonValue, { family, stratum, primary }: ComparisonRow): string {
  const what = hasSeveral(value) ? 'changes' : 'bands';
  const others = primaryOf(value) === undefined ? what : `other ${what}`;
  return togetherName(
    value,
    family,
    stratum !== undefined ? 'changes within strata' : primary === true ? inPrimary : others,
  );
}

const inPrimary = 'changes in the primary band';

const togetherName = ({ confidence }: ComparisonValue, family: number, what: string): string =>
  family === 1
    ? `${percent(confidence)} interval`
    : `${percent(confidence)} interval for ${allOf(family, what)} together`;

/** `-14.2 % (-19.1 to -9.0)`. */
export function changeText({
  changePercent,
  lowPercent,
  highPercent,
}: Pick<ComparisonRow, 'changePercent' | 'lowPercent' | 'highPercent'>): string {
  const { value, low, high } = interval(changePercent, lowPercent, highPercent);
  return lowPercent === undefined ? `${signed(value)} %` : `${signed(value)} % (${signed(low)} to ${signed(high)})`;
}

/** Changes in percent that a claim allows; an end that is open is undefined. */
export interface ClaimedChange {
  readonly from: number | undefined;
  readonly to: number | undefined;
}

/** The font of figures in print has no star of its own. */
export const primarySign = (): string => (layout().print ? '*' : '★');

/** The row's name on its axis; a star for the one that the question is about. */
export const rowLabel = (value: ComparisonValue, row: ComparisonRow): string =>
  `${comparedName(value, row)}${row.primary === true ? ` ${primarySign()}` : ''}`;

/** From the baseline to what is held against it: `rigid (3 runs) to foam (3 runs) and gel (3 runs)`. */
export function sidesWords(value: ComparisonValue): string {
  const [from, ...to] = sidesIn(value).map(sideWords);
  return `${from} to ${listed(to)}`;
}

/** Whether the rows are changes of several conditions, axes or strata, or bands of one change. */
const rowNoun = (value: ComparisonValue): 'change' | 'band' => (hasSeveral(value) ? 'change' : 'band');

/** How the rows came out, those apart that are told one by one. @param counts how many there are of each outcome */
export function outcomesSentence(
  value: ComparisonValue,
  counts: readonly (readonly [outcome: ComparisonRow['outcome'], count: number])[],
  isOfOthers: boolean,
): string {
  const all = counts.reduce((sum, [, count]) => sum + count, 0);
  const found = counts
    .filter(([, count]) => count > 0)
    .map(([outcome, count]) => `${outcomeWord(outcome, value)} in ${count}`);
  return `Of ${isOfOthers ? 'the other ' : ''}${counted(all, rowNoun(value))}: ${listed(found)}.`;
}

/** Over the sentences of all rows, or of those that are not told before, which open on demand. */
export const everyRowTitle = (value: ComparisonValue, isOfOthers: boolean): string =>
  `Every ${isOfOthers ? 'other ' : ''}${rowNoun(value)} in a sentence`;

/** Over the sentences on whether changes differ between strata, which open on demand where they are many. */
export const interactionTitle = 'Whether the changes differ between strata, each in a sentence';

/** `channel z`, `channels x, y and z`. */
export function channelsOf(value: ComparisonValue): string {
  const channels = distinct(value.rows.map(({ channel }) => channel));
  return channels.length > 1 ? `channels ${listed(channels)}` : `channel ${value.channel}`;
}

/** By what interval, or why there is none. */
export const methodSentence = (value: ComparisonValue): string =>
  isInferred(value) ? `Method: ${value.method}.` : sentence(value.method);

/** Over the table of the changes. */
export const comparisonCaption = (value: ComparisonValue): string =>
  spaced(
    `${capitalised(value.metric)}, ${channelsOf(value)}, ${sidesWords(value)}.`,
    methodSentence(value),
    familiesSentence(value),
  );

/** Over the column of probabilities. */
export function chanceHeading(value: ComparisonValue): string {
  const families = familiesOf(value);
  if (families.length > 1 || families[0]?.rows === 1) return 'p';
  return hasSeveral(value) ? 'p for all together' : 'p for all bands';
}

/** Over the table of what the data rule out, and over its columns. */
export const detailsCaption = (isRuledOut: boolean): string =>
  isRuledOut ? 'What the data rule out, and how the runs scatter' : 'How the runs scatter';
export const ruledOutHeading = 'Ruled out beyond, either way';
export const scatterHeading = 'Scatter from run to run';
