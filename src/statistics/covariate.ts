import { compare } from './compare.ts';
import type { CompareOptions, ComparisonRow, Levels } from './comparison.ts';

/** A quantity that differed from run to run and may explain part of a change: the mean speed, say. Above 0. */
export interface Covariate {
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
  const wrong = [...values, reference].find((value) => !(value > 0 && value < Infinity));
  if (wrong !== undefined) throw new RangeError(`the covariate must be above 0, but is ${wrong}`);
  return levels.map((level, k) => level * (reference / values[k]) ** exponent);
}

/** The comparison's row as it would be if the level grew with the given power of the covariate. */
export interface CovariateRow {
  readonly exponent: number;
  readonly row: ComparisonRow;
}

/**
 * How much a result hangs on a covariate that was not the same: the row for each exponent.
 * It is sensitivity, never a silent correction; the reference cancels in the ratio.
 */
export function covariateSensitivity(
  band: Levels,
  covariate: Covariate,
  options: CompareOptions,
  exponents: readonly number[],
): CovariateRow[] {
  const all = [...covariate.a, ...covariate.b];
  const reference = Math.exp(all.reduce((sum, value) => sum + Math.log(value), 0) / all.length);
  return exponents.map((exponent) => {
    const a = adjustLevels(band.a, covariate.a, exponent, reference);
    const b = adjustLevels(band.b, covariate.b, exponent, reference);
    return { exponent, row: compare([{ a, b }], { ...options, primary: undefined }).rows[0] };
  });
}
