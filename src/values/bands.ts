import { calibrationFigure, channelNames, detail, field, figure, ofRun } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import type { Unit } from '../units/unit.ts';
import type { Band } from './band.ts';
import type { ExcludedRun } from './excluded.ts';
import { channelIn, excludedIn, rowsIn, runIn } from './scaling.ts';
import type { Channel, Run } from './run.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

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

const own = ({ unit }: BandRow): Unit => unit;

export const bandsKind = {
  kind: 'bands',
  words: 'bands',
  summary: ({ rows }) => inShort('bands', counted(rows.length, 'row')),
  caption: () => 'Bands',
  whole: [],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['run, channel and band', 'a band'],
    unit: own,
    sensor: ({ channel }) => channel.calibration,
    names: channelNames,
    columns: [
      figure('from', 'Hz', ({ band }) => band.from),
      figure('to', 'Hz', ({ band }) => band.to),
      detail('label', ({ band }) => band.label, 'text'),
      field('rms', own, ({ rms }) => rms, 'The r.m.s.', { title: 'R.m.s.', written: 'r.m.s.' }),
      calibrationFigure(({ rows }: BandsValue) => rows),
    ],
    pick: { together: ofRun, keep: (value, rows) => ({ ...value, rows }) },
  },
  inUnit(value, asked) {
    const rows = rowsIn(value.rows, asked, own, (row, { unit, factor }) => ({
      ...row,
      run: runIn(row.run, asked),
      channel: channelIn(row.channel, asked),
      unit,
      rms: row.rms * factor,
    }));
    return rows && { ...value, rows, ...excludedIn(value, asked) };
  },
  drawn: 'frequency',
  named: true,
  handsOnExcluded: true,
  runs: ({ rows }) => rows.map(({ run }) => run),
} satisfies DrawnDescription<BandsValue, BandRow>;
