import { calibrationFigure, channelNames, detail, field, ofRun } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import { exposureJson } from './exposure.ts';
import type { ExcludedRun } from './excluded.ts';
import type { ExposureValue } from './exposure.ts';
import { channelIn, excludedIn, rowsIn, runIn } from './scaling.ts';
import type { Channel, Run } from './run.ts';
import type { Unit } from '../units/unit.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

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
  /** Of a resultant the length of the mean vector. */
  readonly mean: number;
  /** Mean removed. */
  readonly rms: number;
  /** Mean kept. */
  readonly totalRms: number;
  /** Largest |x - mean|; of a resultant, here and below, x and its mean are vectors. */
  readonly peak: number;
  /** A resultant has none, nor kurtosis, skewness or a dose: they are of one axis. */
  readonly peakToPeak: number | undefined;
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
  /** Mean square about the mean of each axis, in the channel's unit squared; of rows that are made for a comparison alone. */
  readonly powers?: readonly number[];
}

const times = (level: number | undefined, factor: number): number | undefined =>
  level === undefined ? undefined : level * factor;

/** A dose stays in the unit that it is always told in. */
function levelsIn(row: LevelsRow, asked: Unit, factor: number): LevelsRow {
  return {
    ...row,
    run: runIn(row.run, asked),
    channel: channelIn(row.channel, asked),
    mean: row.mean * factor,
    rms: row.rms * factor,
    totalRms: row.totalRms * factor,
    peak: row.peak * factor,
    peakToPeak: times(row.peakToPeak, factor),
    percentile99: row.percentile99 * factor,
    percentile999: row.percentile999 * factor,
    mtvv: times(row.mtvv, factor),
  };
}

const own = ({ channel }: LevelsRow): Unit => channel.unit;

export const levelsKind = {
  kind: 'levels',
  words: 'levels',
  summary: ({ rows }) => inShort('levels', counted(rows.length, 'row')),
  caption: () => 'Levels',
  whole: [],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['run and channel', 'a run’s channel'],
    unit: own,
    sensor: ({ channel }) => channel.calibration,
    names: channelNames,
    columns: [
      field('mean', own, (row) => row.mean, 'The mean, of a resultant the length of the mean vector,', {
        eitherSign: true,
      }),
      field('rms', own, (row) => row.rms, 'The r.m.s., mean removed,', { title: 'R.m.s.', written: 'r.m.s.' }),
      field('total_rms', own, (row) => row.totalRms, 'The r.m.s., mean kept,', {
        title: 'R.m.s. with mean',
        written: 'r.m.s. with mean',
        further: true,
      }),
      field(
        'peak',
        own,
        (row) => row.peak,
        'The largest distance from the mean, of a resultant the largest length of its vector,',
      ),
      field('peak_to_peak', own, (row) => row.peakToPeak, 'The largest less the smallest value', { further: true }),
      field('p99', own, (row) => row.percentile99, 'The level that |x − mean| stays below 99 % of the time', {
        title: '99 % below',
        further: true,
      }),
      field('p99_9', own, (row) => row.percentile999, 'The level that |x − mean| stays below 99.9 % of the time', {
        title: '99.9 % below',
        further: true,
      }),
      field('crest_factor', '', (row) => row.crestFactor, 'Peak over r.m.s.', { digits: 3 }),
      field('kurtosis', '', (row) => row.kurtosis, 'The kurtosis, 3 for a Gaussian,', { digits: 3 }),
      field('skewness', '', (row) => row.skewness, 'The skewness', { digits: 3, further: true }),
      field('vdv', 'm/s^1.75', (row) => row.vdv, 'The vibration dose value', { title: 'VDV', bySensor: true }),
      field('mtvv', own, (row) => row.mtvv, 'The largest r.m.s. over 1 s', {
        title: 'Largest 1 s r.m.s.',
        further: true,
      }),
      field('mtvv_at', 's', (row) => row.mtvvAt, 'The end of the second of the largest r.m.s.', {
        title: 'at',
        digits: 3,
        further: true,
      }),
      field('duration', 's', (row) => row.duration, 'The duration'),
      calibrationFigure(({ rows }: LevelsValue) => rows),
      detail('weighting', ({ channel }) => channel.weighting, 'text'),
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
  after: [detail('exposure', ({ exposure }) => exposure && exposureJson(exposure), 'parts')],
  inUnit(value, asked) {
    const rows = rowsIn(value.rows, asked, own, (row, { factor }) => levelsIn(row, asked, factor));
    return rows && { ...value, rows, ...excludedIn(value, asked) };
  },
  drawn: 'itself',
  named: true,
  handsOnExcluded: true,
  runs: ({ rows }) => rows.map(({ run }) => run),
} satisfies DrawnDescription<LevelsValue, LevelsRow>;
