import { field, figure } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import type { Unit } from '../units/unit.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';
import { rowsIn } from './scaling.ts';
import { spectrumIn, type SpectrumValue } from './spectrum.ts';

/** Lines that stand out of a spectrum's confidence band. */
export interface PeaksValue {
  readonly kind: 'peaks';
  readonly spectrum: SpectrumValue;
  readonly rows: readonly PeakRow[];
  /** Half-power width in Hz below which a resonance looks like a line, by the window. */
  readonly unseenWidth?: number;
}

export type PeakShape = 'line' | 'resonance' | 'unresolved' | 'blurred';

export interface PeakRow {
  /** A run's label, or `mean` for the mean over runs. */
  readonly run: string;
  readonly channel: string;
  /** Hz, between bins. */
  readonly frequency: number;
  /** In the unit of the spectrum; of a pure line its own height, of anything else that of the bin. */
  readonly level: number;
  /** Whether a pure line, a resonance wider than enough bins, one of too few, or a peak that its neighbours blur. */
  readonly shape: PeakShape;
  /** By how much a line between two bins is higher than its bin, as a fraction of the level. */
  readonly correction: number | undefined;
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
  summary: ({ rows }) => inShort('peaks', counted(rows.length, 'row')),
  caption: () => 'Peaks',
  whole: [],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['peak', 'a peak'],
    unit: own,
    names: [figure('run', '', ({ run }) => run), figure('channel', '', ({ channel }) => channel)],
    columns: [
      field('frequency', 'Hz', (row) => row.frequency, 'The frequency'),
      field('level', own, (row) => row.level, 'The height', { each: 'rounded' }),
      figure('shape', '', ({ shape }) => shape),
      field('prominence', 'dB', (row) => row.prominence, 'The height over the surroundings', {
        title: 'Above surroundings',
        decimals: 1,
      }),
      field('width', 'Hz', (row) => row.width, 'The half-power width', {
        title: 'Half-power width',
        digits: 3,
        each: 'rounded',
      }),
      field('damping', '', (row) => row.damping, 'The damping ratio', {
        title: 'Damping ratio',
        digits: 2,
        each: 'rounded',
        percent: true,
      }),
      field(
        'correction',
        '',
        (row) => row.correction,
        'By how much the height of a line between two bins was raised over that of its bin',
        { digits: 2, each: 'rounded', percent: true, further: true },
      ),
    ],
    pick: { keep: (value, rows) => ({ ...value, rows }) },
  },
  inUnit(value, asked) {
    const rows = rowsIn(value.rows, asked, own, (row, { unit, factor }) => ({
      ...row,
      unit,
      level: row.level * factor,
    }));
    const spectrum = spectrumIn(value.spectrum, asked);
    return spectrum && { ...value, spectrum, rows: rows ?? value.rows };
  },
  drawn: 'frequency',
  runs: ({ spectrum }) => spectrum.entries.map(({ run }) => run),
} satisfies DrawnDescription<PeaksValue, PeakRow>;
