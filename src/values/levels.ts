import type { ExcludedRun } from './excluded.ts';
import type { ExposureValue } from './exposure.ts';
import type { Channel, Run } from './run.ts';

export interface LevelsValue {
  readonly kind: 'levels';
  readonly set: string | undefined;
  readonly rows: readonly LevelsRow[];
  readonly excluded?: readonly ExcludedRun[];
  /** Published ranges as context, for levels of weighted acceleration. */
  readonly exposure?: ExposureValue;
}

/** In the channel's own unit unless said. */
export interface LevelsRow {
  readonly run: Run;
  readonly channel: Channel;
  readonly mean: number;
  /** Mean removed. */
  readonly rms: number;
  /** Mean kept. */
  readonly totalRms: number;
  /** Largest |x - mean|. */
  readonly peak: number;
  readonly peakToPeak: number;
  readonly crestFactor: number | undefined;
  /** 3 for a Gaussian. */
  readonly kurtosis: number | undefined;
  readonly skewness: number | undefined;
  /** m/s^1.75; undefined when the channel is no acceleration. */
  readonly vdv: number | undefined;
  /** Of |x - mean|. */
  readonly percentile99: number;
  readonly percentile999: number;
  /** Largest running r.m.s. over 1 s, and the end of that second in s from the run's start; of runs of 1 s or more. */
  readonly mtvv: number | undefined;
  readonly mtvvAt: number | undefined;
  /** s */
  readonly duration: number;
}
