import type { Unit } from '../../units/unit.ts';

/** A density given by breakpoints that are joined by straight lines on log-log paper. */
export interface ProfileValue {
  readonly kind: 'profile';
  readonly unit: Unit;
  readonly points: readonly { readonly frequency: number; readonly density: number }[];
  /** r.m.s. of the whole profile, in the root of unit x Hz. */
  readonly rms: number;
  readonly rmsUnit: Unit;
}
