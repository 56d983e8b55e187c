import type { Unit } from '../units/unit.ts';
import type { ExcludedRun } from './excluded.ts';
import type { Channel, Run } from './run.ts';
import type { WindowValue } from './window.ts';

/** One-sided Welch spectra, one per run and channel, all with the same frequency spacing within each entry. */
export interface SpectrumValue {
  readonly kind: 'spectrum';
  readonly form: 'psd' | 'amplitude';
  readonly set: string | undefined;
  readonly window: WindowValue;
  /** Of the confidence limits, 0 to 1. */
  readonly confidence: number;
  readonly entries: readonly SpectrumEntry[];
  /** Mean over runs per channel (power mean), where the runs share one frequency axis. */
  readonly means: readonly SpectrumMean[];
  readonly excluded?: readonly ExcludedRun[];
  /** Where frequencies were divided by a speed: then `spacing` and densities are over this, and no longer in Hz. */
  readonly axis?: SpectrumAxis;
}

/** What a spectrum is over, when that is not frequency. */
export interface SpectrumAxis {
  readonly name: 'cycles per metre' | 'order';
  /** `1/m`, or empty for orders. */
  readonly unit: Unit;
  /** The speed or turning rate, in words: `1.2 m/s`. */
  readonly by: string;
}

export interface SpectrumEntry {
  readonly run: Run;
  readonly channel: Channel;
  /** Unit of `level`: `g^2/Hz` for a density, `g` for amplitude. */
  readonly unit: Unit;
  /** Bin spacing in Hz: rate / segmentSamples, exactly. Bin k is at k x spacing. */
  readonly spacing: number;
  readonly segments: number;
  readonly segmentSamples: number;
  /** Equivalent noise bandwidth in Hz. */
  readonly noiseBandwidth: number;
  /** Effective number of independent averages. */
  readonly averages: number;
  readonly level: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** The density whatever the form, so that bands can be taken of an amplitude spectrum too. */
  readonly density: Float64Array;
}

export interface SpectrumMean {
  readonly channel: string;
  readonly unit: Unit;
  readonly spacing: number;
  readonly level: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}
