import type { Density } from '../../signal/welch.ts';
import type { Band } from '../../values/band.ts';
import type { PlanFollowed, PlannedAdjustment, PlanValue, Settled } from '../../values/plan.ts';
import type { Channel } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import type { OctaveFraction } from '../spectra/octaves.ts';

export type AskedMethod = 'paired' | 'trend';

/** A covariate of the run sheet whose part is to be taken out of the levels. */
export type Adjustment = PlannedAdjustment;

/** What is asked of a comparison; undefined is not stated, and may be settled by the plan or taken as usual. */
export interface ComparisonRequest {
  /** `rms`, `vdv`, `p99`, `p99_9` or a weighting: `wk`. */
  readonly metric: string | undefined;
  /** Bands in Hz; or ranges in Hz that parts of an octave are to cover. */
  readonly bands: readonly Band[];
  readonly fraction: OctaveFraction | undefined;
  /** The band that the question is about. */
  readonly primary: Band | undefined;
  /** 0.5 to 1, both excluded. */
  readonly confidence: number | undefined;
  /** A fraction above 0: smaller changes count as none. */
  readonly margin: number | undefined;
  readonly method: AskedMethod | undefined;
  /** A recording of the logger at rest. */
  readonly floor: RunsValue | SpectrumValue | undefined;
  readonly plan: NamedPlan | undefined;
  /** Whether runs that the run sheet leaves out are taken in. */
  readonly includesExcluded: boolean;
  /** Columns of the run sheet within whose words runs are compared. */
  readonly within: readonly string[];
  readonly adjust: readonly Adjustment[];
  /** Whether every two conditions are compared, and not only each with the baseline. */
  readonly isAllPairs: boolean;
  /** Whether a window is stated for the spectra. */
  readonly statesWindow: boolean;
}

export interface NamedPlan {
  readonly name: string;
  readonly value: PlanValue;
}

/** What a comparison is made by, once its request, its plan and its sides have been held together. */
export interface ComparisonTerms {
  readonly metric: string;
  /** With the primary one among them. */
  readonly bands: readonly Band[];
  /** Index of the band that the question is about. */
  readonly primary: number | undefined;
  /** The level is of the whole signal, and there is one band: all of it. */
  readonly ofSignal: boolean;
  readonly confidence: number;
  readonly margin: number | undefined;
  /** Where one is asked for; else the layout of the test decides. */
  readonly method: AskedMethod | undefined;
  readonly floor: RunsValue | SpectrumValue | undefined;
  readonly within: readonly string[];
  readonly adjust: readonly Adjustment[];
  /** Columns whose adjustment the plan names. */
  readonly plannedAdjust: readonly string[];
  readonly isAllPairs: boolean;
  /** Whether one scatter stands for all runs, as only a plan may say. */
  readonly isPooled: boolean;
  /** What a plan says of the bands it names, and why it lets no verdict rest on these terms. */
  readonly planned?: Pick<PlanFollowed, 'bands' | 'unplanned'>;
  /** How many rows were stated before these, which are then unplanned. */
  readonly besides?: number;
  /** Of tracks whose samples are not at hand. */
  readonly known?: KnownOfTracks;
}

/** What was made before of channels whose samples are not at hand, recording by recording or part by part. */
export interface KnownOfTracks {
  /** In unit^2/Hz. */
  readonly densities: ReadonlyMap<Channel, Density>;
  readonly levels: ReadonlyMap<Channel, SignalLevels>;
}

/** Levels of a whole signal, or of the resultant of several, that can be compared. In the channel's unit unless said. */
export interface SignalLevels {
  /** Mean removed. */
  readonly rms: number;
  /** Of |x - mean|. */
  readonly p99: number;
  readonly p999: number;
  /** m/s^1.75; undefined of what is no acceleration, and of a resultant. */
  readonly dose: number | undefined;
  /** Mean square about the mean of each axis. */
  readonly powers: readonly number[];
}

/** What a request's plan settles; nothing where it has none. */
export const settledBy = ({ plan }: ComparisonRequest): Partial<Settled> => plan?.value.settled ?? {};

/** The metric that a request states, or its plan, or the usual one. */
export const metricOf = (request: ComparisonRequest): string => request.metric ?? settledBy(request).metric ?? 'rms';

/** Whether bands are compared, of a metric that has bands: the request names one, or its plan. */
export function hasBands(request: ComparisonRequest): boolean {
  const { primary, bands = [] } = settledBy(request);
  return namesBand(request) || primary !== undefined || bands.length > 0;
}

/** Whether a request names a band itself. */
export const namesBand = ({ bands, fraction, primary }: ComparisonRequest): boolean =>
  bands.length > 0 || fraction !== undefined || primary !== undefined;
