/**
 * What a unit measures, as exponents of independent bases. `level` (dB), `count` (raw steps of a converter) and
 * `angle` (rad) are bases of their own, so that none of them can be mistaken for a plain number.
 */
export interface Dimension {
  readonly length: number;
  readonly mass: number;
  readonly time: number;
  readonly count: number;
  readonly level: number;
  readonly angle: number;
}

export interface Unit {
  /** In the language's own spelling: `m/s^2`, `N/mm`, `g^2/Hz`; empty for a plain number. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Size of one such unit in SI units. */
  readonly factor: number;
}

export interface Quantity {
  readonly value: number;
  readonly unit: Unit;
}

/** Standard gravity in m/s², exact (ISO 80000-3). */
export const standardGravity = 9.80665;
