/** Sum, mean and variance (n - 1) of plain numbers; variance 0 for one value. */
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

/** Whether every value is a level that has a logarithm: finite and above 0. */
export function haveLogarithms(levels: readonly number[]): boolean {
  return levels.every((level) => level > 0 && level < Infinity);
}

/** Natural logarithms of levels. @throws RangeError for a level that is not finite or not above 0 */
export function logarithms(levels: readonly number[]): number[] {
  const wrong = levels.find((level) => !(level > 0 && level < Infinity));
  if (wrong !== undefined) throw new RangeError(`levels must be finite and above 0, but one is ${wrong}`);
  return levels.map(Math.log);
}

/** 100 (ratio - 1): the change from A to B in percent of amplitude. */
export const changePercent = (ratio: number): number => 100 * (ratio - 1);

/** 20 log10(ratio): the change in decibels, for a ratio of amplitudes. */
export const changeDb = (ratio: number): number => 20 * Math.log10(ratio);

/** 100 (ratio^2 - 1): the same change in percent of mean square (power), for a ratio of amplitudes. */
export const powerPercent = (ratio: number): number => 100 * (ratio * ratio - 1);
