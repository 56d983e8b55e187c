import { log10Of, logOf } from '../numbers/logarithm.ts';

/**
 * Count, mean and variance (with n - 1) of plain numbers.
 *
 * @param values at least one
 * @returns variance 0 for one value
 * @throws RangeError for no values
 */
export function meanAndVariance(values: readonly number[]): {
  readonly n: number;
  readonly mean: number;
  readonly variance: number;
} {
  const n = values.length;
  if (n === 0) throw new RangeError('values must hold at least one number');
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { n, mean, variance: n > 1 ? squares / (n - 1) : 0 };
}

/** Whether every one of the levels has a logarithm: is finite and above 0. */
export function haveLogarithms(levels: readonly number[]): boolean {
  return levels.every((level) => level > 0 && level < Infinity);
}

/** Natural logarithms of levels in any unit. @throws RangeError for a level that is not finite or not above 0 */
export function logarithms(levels: readonly number[]): number[] {
  const invalid = levels.find((level) => !(level > 0 && level < Infinity));
  if (invalid !== undefined) throw new RangeError(`levels must be finite and above 0, but one is ${invalid}`);
  return levels.map(logOf);
}

/** 100 (ratio - 1): the change from A to B in percent of amplitude, for a `ratio` B/A of amplitudes. */
export const changePercent = (ratio: number): number => 100 * (ratio - 1);

/** 20 log10(ratio): the change in decibels, for a `ratio` B/A of amplitudes. */
export const changeDb = (ratio: number): number => 20 * log10Of(ratio);

/** 100 (ratio^2 - 1): the same change in percent of mean square (power), for a `ratio` B/A of amplitudes. */
export const powerPercent = (ratio: number): number => 100 * (ratio * ratio - 1);
