import { hasSeveral, isOfSignal, placesOfRow, sidesIn, type ComparisonValue } from '../values/comparison.ts';
import type { ComparisonRow } from '../values/comparisonParts.ts';
import { allOf, listed } from '../result/words.ts';
import { bandName } from './names.ts';
import { percent } from '../values/number.ts';

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

/** What the printed intervals are: for all bands, or all changes, together where several are stated together. */
export function intervalName(value: ComparisonValue): string {
  const { rows } = value;
  const within = rows.find(({ stratum }) => stratum !== undefined);
  const over = togetherName(value, value.family ?? 1, hasSeveral(value) ? 'changes' : 'bands');
  if (within === undefined) return over;
  return `${over}; within strata ${togetherName(value, within.family, 'changes')}`;
}

/** The same of one row: those of the primary band, the others and those within strata are families of their own. */
export const rowIntervalName = (value: ComparisonValue, { family, stratum }: ComparisonRow): string =>
  togetherName(
    value,
    family,
    stratum !== undefined ? 'changes within strata' : hasSeveral(value) ? 'changes' : 'bands',
  );

const togetherName = ({ confidence }: ComparisonValue, family: number, what: string): string =>
  family === 1
    ? `${percent(confidence)} interval`
    : `${percent(confidence)} interval for ${allOf(family, what)} together`;
