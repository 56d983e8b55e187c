import type { Unit } from '../units/unit.ts';
import type { Channel, Run } from './run.ts';
import type { WindowValue } from './window.ts';

/** Level over time and frequency. */
export interface SpectrogramValue {
  readonly kind: 'spectrogram';
  readonly set: string | undefined;
  readonly window: WindowValue;
  readonly entries: readonly SpectrogramEntry[];
}

export interface SpectrogramEntry {
  readonly run: Run;
  readonly channel: Channel;
  /** Of a density, such as `g^2/Hz`. */
  readonly unit: Unit;
  /** Hz; bin k is at k x spacing. */
  readonly spacing: number;
  readonly bins: number;
  /** Middle of each column in s on the recording's time axis. */
  readonly times: Float64Array;
  /** Density of column i, bin k at i x bins + k. */
  readonly density: Float64Array;
  /** Segments averaged in a column, where there would be too many columns otherwise. */
  readonly perColumn?: number;
}
