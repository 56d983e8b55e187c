import { channelNames, figure, ofRun } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import { list } from './jsonNumbers.ts';
import type { Unit } from '../units/unit.ts';
import { channelIn, rowsIn, runIn, scaled } from './scaling.ts';
import type { Channel, Run } from './run.ts';
import type { WindowValue } from './window.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

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

const own = ({ unit }: SpectrogramEntry): Unit => unit;

/** Its table has a row a cell of the picture; JSON has the densities of each column in a list. */
export const spectrogramKind = {
  kind: 'spectrogram',
  words: 'a spectrogram',
  summary: ({ entries }) => inShort('a spectrogram', counted(entries.length, 'entry', 'entries')),
  caption: () => 'Spectrogram',
  whole: [figure('window', '', ({ window }) => window.shape), figure('window', 's', ({ window }) => window.length)],
  rows: {
    key: 'runs',
    of: ({ entries }) => entries,
    each: ['run and channel', 'a run’s channel'],
    unit: own,
    names: channelNames,
    columns: [
      figure('spacing', 'Hz', ({ spacing }) => spacing),
      figure('bins', '', ({ bins }) => bins),
      figure('segments_per_column', '', ({ perColumn }) => perColumn ?? 1),
    ],
    series: {
      indices: ({ density }) => density.map((_, index) => index),
      columns: [
        {
          key: 'time',
          unit: 's',
          at: ({ times, bins }, index) => times[Math.floor(index / bins)],
          json: ({ times }) => list(times),
        },
        { key: 'frequency', unit: 'Hz', at: ({ spacing, bins }, index) => (index % bins) * spacing, json: null },
        {
          key: 'density',
          unit: own,
          at: ({ density }, index) => density[index],
          json: ({ density, bins, times }) =>
            Array.from(times, (_, column) => list(density.subarray(column * bins, (column + 1) * bins))),
        },
      ],
    },
    pick: { together: ofRun, keep: (value, entries) => ({ ...value, set: undefined, entries }) },
  },
  inUnit(value, asked) {
    const entries = rowsIn(value.entries, asked, own, (entry, { unit, factor }) => ({
      ...entry,
      run: runIn(entry.run, asked),
      channel: channelIn(entry.channel, asked),
      unit,
      density: scaled(entry.density, factor),
    }));
    return entries && { ...value, entries };
  },
  drawn: 'time',
  named: true,
  runs: ({ entries }) => entries.map(({ run }) => run),
} satisfies DrawnDescription<SpectrogramValue, SpectrogramEntry>;
