import { channelNames, ofRun } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import { exposureJson } from './exposure.ts';
import type { ExcludedRun } from './excluded.ts';
import type { ExposureValue } from './exposure.ts';
import type { Channel, Run } from './run.ts';
import type { Unit } from '../units/unit.ts';

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

const own = ({ channel }: LevelsRow): Unit => channel.unit;

export const levelsKind = {
  kind: 'levels',
  words: 'levels',
  caption: () => 'Levels',
  whole: [],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['run and channel', 'a run’s channel'],
    unit: own,
    names: channelNames,
    columns: [
      { key: 'mean', unit: own, read: (row) => row.mean, doc: 'The mean' },
      { key: 'rms', unit: own, read: (row) => row.rms, doc: 'The r.m.s., mean removed,', shown: { title: 'R.m.s.' } },
      {
        key: 'total_rms',
        unit: own,
        read: (row) => row.totalRms,
        doc: 'The r.m.s., mean kept,',
        shown: { title: 'R.m.s. with mean', further: true },
      },
      { key: 'peak', unit: own, read: (row) => row.peak, doc: 'The largest distance from the mean' },
      {
        key: 'peak_to_peak',
        unit: own,
        read: (row) => row.peakToPeak,
        doc: 'The largest less the smallest value',
        shown: { further: true },
      },
      {
        key: 'p99',
        unit: own,
        read: (row) => row.percentile99,
        doc: 'The level that |x − mean| stays below 99 % of the time',
        shown: { title: '99 % below', further: true },
      },
      {
        key: 'p99_9',
        unit: own,
        read: (row) => row.percentile999,
        doc: 'The level that |x − mean| stays below 99.9 % of the time',
        shown: { title: '99.9 % below', further: true },
      },
      {
        key: 'crest_factor',
        read: (row) => row.crestFactor,
        doc: 'Peak over r.m.s.',
        dimension: 'ratio',
        shown: { digits: 3 },
      },
      {
        key: 'kurtosis',
        read: (row) => row.kurtosis,
        doc: 'The kurtosis, 3 for a Gaussian,',
        dimension: 'ratio',
        shown: { digits: 3 },
      },
      {
        key: 'skewness',
        read: (row) => row.skewness,
        doc: 'The skewness',
        dimension: 'ratio',
        shown: { digits: 3, further: true },
      },
      {
        key: 'vdv',
        unit: 'm/s^1.75',
        read: (row) => row.vdv,
        doc: 'The vibration dose value',
        shown: { title: 'VDV' },
      },
      {
        key: 'mtvv',
        unit: own,
        read: (row) => row.mtvv,
        doc: 'The largest r.m.s. over 1 s',
        shown: { title: 'Largest 1 s r.m.s.', further: true },
      },
      {
        key: 'mtvv_at',
        unit: 's',
        read: (row) => row.mtvvAt,
        doc: 'The end of the second of the largest r.m.s.',
        dimension: 'time',
        shown: { title: 'at', digits: 3, further: true },
      },
      { key: 'duration', unit: 's', read: (row) => row.duration, doc: 'The duration', dimension: 'time' },
      { key: 'weighting', json: ({ channel }) => channel.weighting },
    ],
    jsonFirst: ['mean', 'rms', 'total_rms', 'peak', 'crest_factor', 'kurtosis', 'vdv', 'skewness'],
    pick: {
      together: ofRun,
      keep: ({ exposure, ...value }, rows) =>
        exposure === undefined
          ? { ...value, rows }
          : { ...value, rows, exposure: { ...exposure, rows: exposure.rows.filter(({ run }) => run === rows[0].run) } },
    },
  },
  after: [{ key: 'exposure', json: ({ exposure }) => exposure && exposureJson(exposure) }],
  drawn: 'itself',
  named: true,
  handsOnExcluded: true,
  runs: ({ rows }) => rows.map(({ run }) => run),
} satisfies DrawnDescription<LevelsValue, LevelsRow>;
