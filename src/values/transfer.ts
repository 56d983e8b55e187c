import type { Unit } from '../units/unit.ts';
import type { ExcludedRun } from './excluded.ts';
import type { Run } from './run.ts';
import type { WindowValue } from './window.ts';

/** Frequency responses between two channels of one run, or of two runs recorded together. */
export interface TransferValue {
  readonly kind: 'transfer';
  readonly set: string | undefined;
  readonly window: WindowValue;
  /** Coherence below which a response is not to be read. */
  readonly leastCoherence: number;
  readonly entries: readonly TransferEntry[];
  readonly excluded?: readonly ExcludedRun[];
}

/** All arrays are over bins; bin k is at k x spacing. */
export interface TransferEntry {
  readonly run: Run;
  readonly from: string;
  readonly to: string;
  /** Unit of the response: empty for a ratio. */
  readonly unit: Unit;
  readonly spacing: number;
  /** Effective number of averages. */
  readonly averages: number;
  /** |H1| = |Gxy| / Gxx. */
  readonly magnitude: Float64Array;
  /** |H2| = Gyy / |Gxy|. */
  readonly magnitudeH2: Float64Array;
  /** Degrees, -180 to 180. */
  readonly phase: Float64Array;
  /** 0 to 1. */
  readonly coherence: Float64Array;
  /** Relative standard error of |H1|; as radians that of the phase. */
  readonly randomError: Float64Array;
}
