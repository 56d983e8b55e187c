import type { Density } from './welch.ts';

/** A density over cycles per metre, per turn, or per whatever the speed counts. */
export interface OrderDensity {
  /** Mean square per unit of order in each bin; bin k is at k x step. */
  readonly density: Float64Array;
  /** Bin spacing in cycles per metre or turn. */
  readonly step: number;
}

/**
 * The density over order = frequency / speed. Its area, the mean square, stays what it was. What repeats on the way
 * (a joint, a spoke, a turn) keeps its order when the speed changes, and what resonates keeps its frequency.
 *
 * @param of one-sided density in unit^2/Hz
 * @param speed in m/s or turns/s, above 0; the mean of a run whose speed hardly changes
 * @returns the density in unit^2 per cycle a metre or a turn, one value a bin
 * @throws RangeError for a speed that is not above 0
 */
export function overOrders(of: Density, speed: number): OrderDensity {
  if (!(speed > 0 && speed < Infinity)) throw new RangeError(`orders need a speed above 0, not ${speed}`);
  return { density: of.density.map((value) => value * speed), step: of.step / speed };
}
