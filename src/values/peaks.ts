import type { DrawnDescription } from './description.ts';
import type { Unit } from '../units/unit.ts';
import type { SpectrumValue } from './spectrum.ts';

/** Lines that stand out of a spectrum's confidence band. */
export interface PeaksValue {
  readonly kind: 'peaks';
  readonly spectrum: SpectrumValue;
  readonly rows: readonly PeakRow[];
}

export interface PeakRow {
  /** A run's label, or `mean` for the mean over runs. */
  readonly run: string;
  readonly channel: string;
  /** Hz, between bins. */
  readonly frequency: number;
  /** In the unit of the spectrum. */
  readonly level: number;
  readonly unit: Unit;
  /** Half-power width in Hz, the window's own taken out; undefined where the bins are too wide to tell. */
  readonly width: number | undefined;
  /** Damping ratio, width / (2 frequency); undefined where the resolution does not allow it. */
  readonly damping: number | undefined;
  /** Height over the surroundings, in dB of power. */
  readonly prominence: number;
}

const own = ({ unit }: PeakRow): Unit => unit;

export const peaksKind = {
  kind: 'peaks',
  words: 'peaks',
  caption: () => 'Peaks',
  whole: [],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['peak', 'a peak'],
    unit: own,
    names: [
      { key: 'run', read: ({ run }) => run },
      { key: 'channel', read: ({ channel }) => channel },
    ],
    columns: [
      { key: 'frequency', unit: 'Hz', read: (row) => row.frequency, doc: 'The frequency', dimension: 'frequency' },
      { key: 'level', unit: own, read: (row) => row.level, doc: 'The height', shown: { each: 'rounded' } },
      {
        key: 'prominence',
        unit: 'dB',
        read: (row) => row.prominence,
        doc: 'The height over the surroundings',
        dimension: 'level',
        shown: { title: 'Above surroundings', decimals: 1 },
      },
      {
        key: 'width',
        unit: 'Hz',
        read: (row) => row.width,
        doc: 'The half-power width',
        dimension: 'frequency',
        shown: { title: 'Half-power width', digits: 3, each: 'rounded' },
      },
      {
        key: 'damping',
        read: (row) => row.damping,
        doc: 'The damping ratio',
        dimension: 'ratio',
        shown: { title: 'Damping ratio', digits: 2, each: 'rounded', percent: true },
      },
    ],
    pick: { keep: (value, rows) => ({ ...value, rows }) },
  },
  drawn: 'frequency',
  runs: ({ spectrum }) => spectrum.entries.map(({ run }) => run),
} satisfies DrawnDescription<PeaksValue, PeakRow>;
