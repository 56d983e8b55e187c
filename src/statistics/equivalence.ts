import { pAtLeast, pAtMost, ratioInterval, type Estimate, type RatioInterval } from './estimate.ts';

/** Whether B is practically the same as A, within a margin declared before looking. */
export interface Equivalence {
  /** The margin as a fraction: 0.05 means that ratios between 1/1.05 and 1.05 count as the same. */
  readonly margin: number;
  /** The zone of ratios that count as the same. */
  readonly zone: RatioInterval;
  /** The (1 - 2 alpha) interval that has to lie inside the zone: 90 % for a confidence of 95 %. */
  readonly interval: RatioInterval;
  readonly equivalent: boolean;
  /** The larger p of the two one-sided tests; equivalent when it is below alpha. */
  readonly p: number;
}

/**
 * Two one-sided tests of the ratio against 1/(1+margin) and 1+margin (Schuirmann 1987, J. Pharmacokinet. Biopharm. 15).
 *
 * @param margin above 0, as a fraction
 * @param confidence 1 - alpha of each test, for instance 0.95; above 0.5 and below 1
 * @throws RangeError for a margin or a confidence out of range
 */
export function equivalence(estimate: Estimate, margin: number, confidence: number): Equivalence {
  if (!(margin > 0 && margin < Infinity)) throw new RangeError(`margin must be above 0, but is ${margin}`);
  if (!(confidence > 0.5 && confidence < 1))
    throw new RangeError(`confidence must lie between 0.5 and 1, but is ${confidence}`);
  const alpha = 1 - confidence;
  const zone = { low: 1 / (1 + margin), high: 1 + margin };
  const interval = ratioInterval(estimate, 1 - 2 * alpha);
  const p = Math.max(pAtMost(estimate, zone.low), pAtLeast(estimate, zone.high));
  return { margin, zone, interval, equivalent: interval.low > zone.low && interval.high < zone.high, p };
}
