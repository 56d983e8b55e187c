import type { Unit } from '../units/unit.ts';
import type { Band } from './band.ts';
import type { ExcludedRun } from './excluded.ts';
import type { Channel, Run } from './run.ts';

export interface BandsValue {
  readonly kind: 'bands';
  readonly set: string | undefined;
  readonly bands: readonly Band[];
  readonly rows: readonly BandRow[];
  readonly excluded?: readonly ExcludedRun[];
}

export interface BandRow {
  readonly run: Run;
  readonly channel: Channel;
  readonly band: Band;
  readonly unit: Unit;
  /** NaN in a band of an octave that holds too few bins for a figure; a warning says so, and JSON has null. */
  readonly rms: number;
}
