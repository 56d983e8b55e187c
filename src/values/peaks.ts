import type { Unit } from '../units/unit.ts';
import type { SpectrumValue } from './spectrum.ts';

/** Lines that stand out of a spectrum's confidence band. */
export interface PeaksValue {
  readonly kind: 'peaks';
  readonly spectrum: SpectrumValue;
  readonly rows: readonly PeakRow[];
}

export interface PeakRow {
  /** A run's label, or `mean` for the mean over runs. */
  readonly run: string;
  readonly channel: string;
  /** Hz, between bins. */
  readonly frequency: number;
  /** In the unit of the spectrum. */
  readonly level: number;
  readonly unit: Unit;
  /** Half-power width in Hz, the window's own taken out; undefined where the bins are too wide to tell. */
  readonly width: number | undefined;
  /** Damping ratio, width / (2 frequency); undefined where the resolution does not allow it. */
  readonly damping: number | undefined;
  /** Height over the surroundings, in dB of power. */
  readonly prominence: number;
}
