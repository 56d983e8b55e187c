/**
 * Doors of the distributions: a wrong argument is a programmer's error and throws a RangeError that names
 * the argument and its value, so that no result is ever NaN.
 */

/** The largest number of degrees of freedom that is computed; the series take about sqrt(df) steps. */
const largestDf = 1e12;

/** Throws unless `df` is a finite number in (0, 1e12]. */
export function requireDf(name: string, df: number): void {
  if (!(df > 0 && df <= largestDf)) throw new RangeError(`${name} must be above 0 and at most 1e12, but is ${df}`);
}

/** Throws unless `p` lies in [0, 1]. */
export function requireProbability(name: string, p: number): void {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`${name} must lie between 0 and 1, but is ${p}`);
}

/** Throws if `x` is NaN; infinities are fair values of a variate. */
export function requireNumber(name: string, x: number): void {
  if (Number.isNaN(x)) throw new RangeError(`${name} must be a number, but is NaN`);
}
