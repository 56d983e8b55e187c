import { calibrationFigure, channelNames, field, figure, ofRun } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import type { ExcludedRun } from './excluded.ts';
import { channelIn, excludedIn, rowsIn, runIn, scaled } from './scaling.ts';
import type { Channel, Run } from './run.ts';
import type { Unit } from '../units/unit.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';
import { formatNumber } from '../units/format.ts';

/** Shock response spectra: how strongly oscillators on a base that moves as recorded answer, in absolute acceleration. */
export interface ShockValue {
  readonly kind: 'shock';
  readonly set: string | undefined;
  /** Fraction of critical damping. */
  readonly damping: number;
  readonly entries: readonly ShockEntry[];
  readonly excluded?: readonly ExcludedRun[];
}

/** All arrays are over the oscillators; levels in the channel's unit. */
export interface ShockEntry {
  readonly run: Run;
  readonly channel: Channel;
  /** Natural frequencies in Hz, rising. */
  readonly frequencies: Float64Array;
  /** Largest at any time, towards + and towards -. */
  readonly maximax: Float64Array;
  readonly positive: Float64Array;
  readonly negative: Float64Array;
  /** Largest in the free vibration after the run’s end. */
  readonly residual: Float64Array;
}

const own = ({ channel }: ShockEntry): Unit => channel.unit;

/** The oscillator that answers most strongly. */
const topOf = ({ maximax }: ShockEntry): number =>
  maximax.reduce((top, level, k) => (level > maximax[top] ? k : top), 0);

/** Its table has a row an oscillator. */
export const shockKind = {
  kind: 'shock',
  words: 'a shock response spectrum',
  summary: ({ entries, damping }) =>
    inShort('shock response', `damping ${formatNumber(100 * damping)} %`, counted(entries.length, 'entry', 'entries')),
  caption: ({ damping }) => `Shock response, damping ${formatNumber(100 * damping)} %: absolute acceleration`,
  whole: [figure('damping', '%', ({ damping }) => 100 * damping)],
  rows: {
    key: 'runs',
    of: ({ entries }) => entries,
    each: ['run and channel', 'a run’s channel'],
    unit: own,
    sensor: ({ channel }) => channel.calibration,
    names: channelNames,
    columns: [
      field('largest', own, (entry) => entry.maximax[topOf(entry)], 'The largest response of any oscillator'),
      field('largest_at', 'Hz', (entry) => entry.frequencies[topOf(entry)], 'Its natural frequency', { title: 'at' }),
      field(
        'largest_residual',
        own,
        ({ residual }) => residual.reduce((most, level) => Math.max(most, level), 0),
        'The largest response of any oscillator after the end of the run',
        { title: 'Largest after the end' },
      ),
      calibrationFigure(({ entries }: ShockValue) => entries),
    ],
    series: {
      indices: ({ frequencies }) => frequencies.map((_, k) => k),
      columns: [
        {
          key: 'natural_frequency',
          heading: 'natural frequency',
          unit: 'Hz',
          at: ({ frequencies }, k) => frequencies[k],
        },
        { key: 'maximax', unit: own, at: ({ maximax }, k) => maximax[k] },
        { key: 'positive', unit: own, at: ({ positive }, k) => positive[k] },
        { key: 'negative', unit: own, at: ({ negative }, k) => negative[k] },
        { key: 'residual', unit: own, at: ({ residual }, k) => residual[k] },
      ],
    },
    pick: { together: ofRun, keep: (value, entries) => ({ ...value, set: undefined, entries }) },
  },
  inUnit(value, asked) {
    const entries = rowsIn(value.entries, asked, own, (entry, { factor }) => ({
      ...entry,
      run: runIn(entry.run, asked),
      channel: channelIn(entry.channel, asked),
      maximax: scaled(entry.maximax, factor),
      positive: scaled(entry.positive, factor),
      negative: scaled(entry.negative, factor),
      residual: scaled(entry.residual, factor),
    }));
    return entries && { ...value, entries, ...excludedIn(value, asked) };
  },
  drawn: 'frequency',
  named: true,
  handsOnExcluded: true,
  runs: ({ entries }) => entries.map(({ run }) => run),
} satisfies DrawnDescription<ShockValue, ShockEntry>;
