import { field, figure, ofRun, runName } from './columns.ts';
import type { DrawnDescription } from './description.ts';
import type { Unit } from '../units/unit.ts';
import type { ExcludedRun } from './excluded.ts';
import { rowsIn, scaled } from './scaling.ts';
import type { Run } from './run.ts';
import type { WindowValue } from './window.ts';
import { inShort } from './short.ts';
import { counted } from '../result/words.ts';

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
  /** By how much the output comes later, in s, negative where it comes first; undefined where no one delay stands out. */
  readonly delay: number | undefined;
  /** By how much it was moved earlier before the response was taken, in s: 0 unless aligned. */
  readonly aligned: number;
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

const own = ({ unit }: TransferEntry): Unit => unit;

export const transferKind = {
  kind: 'transfer',
  words: 'a transfer function',
  summary: ({ entries }) => inShort('a transfer function', counted(entries.length, 'entry', 'entries')),
  caption: () => 'Frequency response',
  whole: [
    figure('window', '', ({ window }) => window.shape),
    figure('window', 's', ({ window }) => window.length),
    figure('least_coherence', '', ({ leastCoherence }) => leastCoherence),
  ],
  rows: {
    key: 'runs',
    of: ({ entries }) => entries,
    each: ['run and pair of channels', 'a run’s pair of channels'],
    unit: own,
    names: [runName, figure('from', '', ({ from }) => from), figure('to', '', ({ to }) => to)],
    columns: [
      figure('spacing', 'Hz', ({ spacing }) => spacing),
      figure('averages', '', ({ averages }) => averages),
      field('delay', 's', ({ delay }) => delay, 'By how much the output comes later than the input', {
        notIn: 'table',
      }),
      figure('aligned', 's', ({ aligned }) => aligned, { notIn: 'table' }),
    ],
    series: {
      indices: ({ magnitude }) => magnitude.map((_, bin) => bin),
      columns: [
        { key: 'frequency', unit: 'Hz', at: ({ spacing }, bin) => bin * spacing, json: null },
        { key: 'h1', unit: own, at: ({ magnitude }, bin) => magnitude[bin] },
        { key: 'h2', unit: own, at: ({ magnitudeH2 }, bin) => magnitudeH2[bin] },
        { key: 'phase', unit: '°', at: ({ phase }, bin) => phase[bin] },
        { key: 'coherence', unit: '', at: ({ coherence }, bin) => coherence[bin] },
        { key: 'random_error', heading: 'random error', unit: '', at: ({ randomError }, bin) => randomError[bin] },
      ],
    },
    pick: { together: ofRun, keep: (value, entries) => ({ ...value, set: undefined, entries }) },
  },
  inUnit(value, asked) {
    const entries = rowsIn(value.entries, asked, own, (entry, { unit, factor }) => ({
      ...entry,
      unit,
      magnitude: scaled(entry.magnitude, factor),
      magnitudeH2: scaled(entry.magnitudeH2, factor),
    }));
    return entries && { ...value, entries };
  },
  drawn: 'frequency',
  named: true,
  handsOnExcluded: true,
  runs: ({ entries }) => entries.map(({ run }) => run),
} satisfies DrawnDescription<TransferValue, TransferEntry>;
