import { compareChanges } from './compareChanges.ts';
import type { AskedChange, ChangesOptions, ComparisonRow } from './comparison.ts';
import type { KnownRun } from './knownRun.ts';
import { powerOf } from '../numbers/power.ts';
import { expOf } from '../numbers/exponential.ts';
import { logOf } from '../numbers/logarithm.ts';

/** A quantity that differed from run to run and may explain part of a change: the mean speed, say. */
export interface Covariate {
  /** Of each side's runs; above 0. */
  readonly a: readonly number[];
  readonly b: readonly number[];
}

/**
 * Levels brought to a common value of a covariate: ln level - p ln(v / reference), that is level (reference / v)^p.
 *
 * @param levels, values one of each a run; values above 0
 * @param exponent p, declared by the user from a sweep of their own; 0 changes nothing
 */
function adjustLevels(
  levels: readonly number[],
  values: readonly number[],
  exponent: number,
  reference: number,
): number[] {
  if (levels.length !== values.length)
    throw new RangeError(`${levels.length} levels but ${values.length} values of the covariate`);
  const invalid = [...values, reference].find((value) => !(value > 0 && value < Infinity));
  if (invalid !== undefined) throw new RangeError(`the covariate must be above 0, but is ${invalid}`);
  return levels.map((level, k) => level * powerOf(reference / values[k], exponent));
}

/** A row as it would be if the level grew with the given power of the covariate. */
export interface CovariateRow {
  readonly exponent: number;
  readonly row: ComparisonRow;
}

/** The runs of a study, and the change in it that is looked at. */
export interface StudiedChange {
  readonly runs: readonly KnownRun[];
  readonly change: AskedChange;
  readonly options: Omit<ChangesOptions, 'primary'>;
}

/**
 * How much a result hangs on a covariate that was not the same: the row as it would be if the level grew with each
 * power of the covariate, by levels brought to one value of it, level (reference / v)^p. It is sensitivity, never a
 * silent correction; the reference cancels in the ratio.
 *
 * @param levels of the runs in one band
 * @param covariate its value in each run, in any one unit
 * @param study the row stands for itself
 * @param exponents p of each row: 0 leaves the levels as they are
 * @throws RangeError for a run without a value, or a value that is not above 0
 */
export function covariateSensitivity(
  levels: readonly number[],
  covariate: readonly number[],
  { runs, change, options }: StudiedChange,
  exponents: readonly number[],
): CovariateRow[] {
  const reference = expOf(covariate.reduce((sum, value) => sum + logOf(value), 0) / covariate.length);
  return exponents.map((exponent) => {
    const adjusted = adjustLevels(levels, covariate, exponent, reference);
    return { exponent, row: compareChanges([adjusted], runs, [change], options)[0].rows[0] };
  });
}
