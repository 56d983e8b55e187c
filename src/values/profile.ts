import type { Unit } from '../units/unit.ts';
import type { Channel, Run } from './run.ts';

/** A density given by breakpoints that are joined by straight lines on log-log paper. */
export interface ProfileValue {
  readonly kind: 'profile';
  readonly unit: Unit;
  readonly points: readonly { readonly frequency: number; readonly density: number }[];
  /** r.m.s. of the whole profile, in the root of unit x Hz. */
  readonly rms: number;
  readonly rmsUnit: Unit;
  /** Spectra held against it, where some were given. */
  readonly against?: readonly ProfileAgainst[];
}

/** One spectrum against a profile, over the profile's range. */
export interface ProfileAgainst {
  readonly run: Run;
  readonly channel: Channel;
  /** r.m.s. of the spectrum within the range, in the profile's `rmsUnit`. */
  readonly rms: number;
  /** 20 log10 of that over the profile's r.m.s. */
  readonly decibels: number;
  /** The bins farthest above and below, in dB of density, and where in Hz; positive is above the profile. */
  readonly highest: { readonly decibels: number; readonly frequency: number };
  readonly lowest: { readonly decibels: number; readonly frequency: number };
  /** Share of the range's bins more than 3 dB off, 0 to 1. */
  readonly outside: number;
}
