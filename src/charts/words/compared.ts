import {
  hasSeveral,
  isOfSignal,
  placesOfRow,
  sideWords,
  sidesIn,
  type ComparisonValue,
} from '../../values/comparison.ts';
import { outcomeWord, type ComparisonRow } from '../../values/comparisonParts.ts';
import { allOf, capitalised, counted, listed } from '../../result/words.ts';
import { layout } from '../layout.ts';
import { bandName, sentence } from './names.ts';
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

/** What the printed intervals are: for all bands, or all changes, together where several are stated together; a primary one stands by itself. */
export function intervalName(value: ComparisonValue): string {
  const { rows, family = 1 } = value;
  const within = rows.find(({ stratum }) => stratum !== undefined);
  const what = hasSeveral(value) ? 'changes' : 'bands';
  const first = primaryOf(value);
  const over =
    first !== undefined && family > 1
      ? `${togetherName(value, first.family, inPrimary)}, for ${allOf(family, `other ${what}`)} together`
      : togetherName(value, family, what);
  if (within === undefined) return over;
  return `${over}; within strata ${togetherName(value, within.family, 'changes')}`;
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

/** Over the sentences of all rows, which open on demand. */
export const everyRowTitle = (value: ComparisonValue): string => `Every ${rowNoun(value)} in a sentence`;

/** Over the table of the changes. */
export const comparisonCaption = (value: ComparisonValue): string =>
  `${capitalised(value.metric)}, channel ${value.channel}, ${sidesWords(value)}. ${sentence(value.method)}`;

/** Over the column of probabilities. */
export function chanceHeading(value: ComparisonValue): string {
  if ((value.family ?? 1) === 1) return 'p';
  if (primaryOf(value) !== undefined) return 'p, of the others together';
  return hasSeveral(value) ? 'p for all together' : 'p for all bands';
}

/** Over the table of what the data rule out, and over its columns. */
export const detailsCaption = (isRuledOut: boolean): string =>
  isRuledOut ? 'What the data rule out, and how the runs scatter' : 'How the runs scatter';
export const ruledOutHeading = 'Larger changes, either way, are ruled out';
export const scatterHeading = 'Scatter from run to run';
