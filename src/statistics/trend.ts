import { ifScattered, twoSidedP, type Estimate } from './estimate.ts';
import { meanAndVariance } from './summary.ts';

/** The difference with a steady drift over the day taken out, and the drift itself. */
export interface TrendEstimate extends Estimate {
  readonly drift: {
    /** Change of ln(level) per step of the order: exp(slope) - 1 is the drift a run. */
    readonly slope: number;
    readonly standardError: number;
    /** Two-sided p of "no drift". */
    readonly p: number;
  };
}

/**
 * Least squares fit of ln(level) = mu + delta [B] + beta order, over all runs in the order they were made
 * (analysis of covariance; Draper & Smith, "Applied Regression Analysis", ch. 14).
 *
 * @param a ln(level) of each run of A
 * @param b likewise of B
 * @param orderA place of each run of A in the day's order (or its time), in any unit
 * @param orderB likewise of B
 * @returns undefined with fewer than 4 runs, no run on a side, orders that do not separate drift from change
 * (all of A at one place and all of B at another), or a fit without any residual
 * @throws RangeError for places that are not as many as the runs
 */
export function trend(
  a: readonly number[],
  b: readonly number[],
  orderA: readonly number[],
  orderB: readonly number[],
): TrendEstimate | undefined {
  if (orderA.length !== a.length || orderB.length !== b.length) {
    throw new RangeError(
      `an order number is needed for each run: ${orderA.length} + ${orderB.length} for ${a.length} + ${b.length}`,
    );
  }
  const df = a.length + b.length - 3;
  if (a.length < 1 || b.length < 1 || df < 1) return undefined;
  const [yA, yB, xA, xB] = [a, b, orderA, orderB].map(meanAndVariance);
  // Within each condition: the common slope is fitted to what is left when each condition's means are taken off.
  const within = (n: number, variance: number): number => (n - 1) * variance;
  const sxx = within(xA.n, xA.variance) + within(xB.n, xB.variance);
  const spread = sxx + (xB.mean - xA.mean) ** 2;
  if (sxx <= 1e-12 * spread) return undefined;
  const products = (y: readonly number[], x: readonly number[], yMean: number, xMean: number): number =>
    y.reduce((sum, value, k) => sum + (value - yMean) * (x[k] - xMean), 0);
  const slope = (products(a, orderA, yA.mean, xA.mean) + products(b, orderB, yB.mean, xB.mean)) / sxx;
  const residual = (y: readonly number[], x: readonly number[], yMean: number, xMean: number): number =>
    y.reduce((sum, value, k) => sum + (value - yMean - slope * (x[k] - xMean)) ** 2, 0);
  const variance = (residual(a, orderA, yA.mean, xA.mean) + residual(b, orderB, yB.mean, xB.mean)) / df;
  const apart = xB.mean - xA.mean;
  const slopeError = Math.sqrt(variance / sxx);
  return ifScattered({
    difference: yB.mean - yA.mean - slope * apart,
    standardError: Math.sqrt(variance * (1 / a.length + 1 / b.length + (apart * apart) / sxx)),
    df,
    drift: { slope, standardError: slopeError, p: twoSidedP({ difference: slope, standardError: slopeError, df }) },
  });
}
