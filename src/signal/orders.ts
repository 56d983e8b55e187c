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
 * @param speed in m/s or turns/s, above 0; the mean of a run whose speed hardly changes
 */
export function overOrders(of: Density, speed: number): OrderDensity {
  requireSpeed(speed);
  return { density: of.density.map((value) => value * speed), step: of.step / speed };
}

/** Order of a frequency: cycles per metre at a speed in m/s, per turn at one in turns/s. */
export function orderOf(frequency: number, speed: number): number {
  requireSpeed(speed);
  return frequency / speed;
}

function requireSpeed(speed: number): void {
  if (!(speed > 0 && speed < Infinity)) throw new RangeError(`orders need a speed above 0, not ${speed}`);
}
