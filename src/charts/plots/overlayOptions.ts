import type { LevelReference } from '../../values/decibels.ts';
import type { Band } from '../../values/band.ts';
import type { FrequencyOptions } from '../axes.ts';
import type { NamedProfile } from './profile.ts';

/** A place that is marked and named. */
export interface PlaceMark {
  readonly at: number;
  readonly label: string;
}

/** What an overlay of spectra is to show besides the spectra. */
export interface OverlayOptions extends FrequencyOptions {
  readonly bands: readonly Band[];
  /** Drawn dashed where they are in the spectrum's unit. */
  readonly profiles: readonly NamedProfile[];
  readonly marks: readonly PlaceMark[];
  /** What levels are told over in dB, where they are. */
  readonly level?: LevelReference;
}

export const bareOverlay: OverlayOptions = { bands: [], profiles: [], frequency: 'linear', marks: [] };
