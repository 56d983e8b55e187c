/** What the runs of one condition say: the mean and scatter of the natural logarithm of their levels. */
export interface Summary {
  /** Number of runs. */
  readonly n: number;
  /** Mean of ln(level). */
  readonly mean: number;
  /** Variance of ln(level), with n - 1; 0 for a single run. */
  readonly variance: number;
  /** exp(mean): the geometric mean, in the levels' unit. */
  readonly geometricMean: number;
}

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

/** Summary of one condition's levels (rms, vibration dose value ...; any unit, one value a run). */
export function summarise(levels: readonly number[]): Summary {
  const { n, mean, variance } = meanAndVariance(logarithms(levels));
  return { n, mean, variance, geometricMean: Math.exp(mean) };
}

/** 100 (ratio - 1): the change from A to B in percent of amplitude. */
export const changePercent = (ratio: number): number => 100 * (ratio - 1);

/** 20 log10(ratio): the change in decibels, for a ratio of amplitudes. */
export const changeDb = (ratio: number): number => 20 * Math.log10(ratio);

/** 100 (ratio^2 - 1): the same change in percent of mean square (power), for a ratio of amplitudes. */
export const powerPercent = (ratio: number): number => 100 * (ratio * ratio - 1);
