import { decibelsPerNeper } from '../numbers/logarithm.ts';
import type { Outcome } from '../statistics/outcome.ts';
import type { Band } from './band.ts';
import { detail, field, figure } from './columns.ts';
import { isOfSignal } from './comparison.ts';
import type { DrawnDescription } from './description.ts';
import { finite } from './jsonNumbers.ts';
import { interval, signed } from './number.ts';
import { inShort } from './short.ts';
import { listed } from '../result/words.ts';

/** Changes of several studies as one, each study a stratum of equal weight. */
export interface PooledValue {
  readonly kind: 'pooled';
  readonly studies: readonly string[];
  readonly metric: string;
  readonly metricCode: string;
  /** 0 to 1. */
  readonly confidence: number;
  readonly rows: readonly PooledRow[];
}

export interface PooledRow {
  readonly band: Band;
  readonly baseline: string;
  readonly condition: string;
  readonly channel: string;
  readonly primary: boolean;
  /** With how many rows, itself among them, it holds together at the confidence. */
  readonly family: number;
  readonly changePercent: number;
  readonly changeDb: number;
  readonly lowPercent: number;
  readonly highPercent: number;
  /** Of ln(B/A). */
  readonly standardError: number;
  readonly df: number;
  readonly p: number;
  readonly outcome: Outcome;
  readonly sentence: string;
  /** In the order of the value's studies. */
  readonly studies: readonly PooledStudy[];
  /** Why no verdict rests on one of the studies. */
  readonly guards: readonly string[];
}

/** The change that one study found, with its own interval. */
export interface PooledStudy {
  readonly name: string;
  readonly changePercent: number;
  readonly lowPercent: number | undefined;
  readonly highPercent: number | undefined;
  readonly standardError: number;
  readonly df: number;
}

const bandOf = ({ band }: PooledRow, { metricCode }: PooledValue): Band | undefined =>
  isOfSignal(metricCode) ? undefined : band;

const partsOf = (
  { standardError, df }: PooledRow,
  { studies }: PooledValue,
  slope: number,
): readonly {
  input: string;
  size: number;
  df: number;
}[] => [{ input: `pooled change of ${listed(studies)}`, size: Math.abs(slope) * standardError, df }];

export const pooledKind = {
  kind: 'pooled',
  words: 'a pooled change',
  summary: ({ studies, rows }) =>
    inShort(
      `${listed(studies)} pooled`,
      ...rows.slice(0, 2).map(({ condition, changePercent, lowPercent, highPercent }) => {
        const { value, low, high } = interval(changePercent, lowPercent, highPercent);
        return `${condition}: ${signed(value)} (${signed(low)} to ${signed(high)}) %`;
      }),
    ),
  caption: ({ metric, studies }) => `Change of ${metric}, ${listed(studies)} pooled with equal weights`,
  whole: [
    detail('studies', ({ studies }) => studies, 'texts'),
    figure('metric', '', ({ metric }) => metric),
    figure('metric_code', '', ({ metricCode }) => metricCode),
    figure('confidence', '', ({ confidence }) => confidence),
    figure('weights', '', () => 'equal'),
  ],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['change', 'a pooled change'],
    names: [
      figure('baseline', '', ({ baseline }) => baseline),
      figure('condition', '', ({ condition }) => condition),
      figure('axis', '', ({ channel }) => channel),
    ],
    columns: [
      figure('from', 'Hz', (row, value) => bandOf(row, value)?.from),
      figure('to', 'Hz', (row, value) => bandOf(row, value)?.to),
      field('change', '%', (row) => row.changePercent, 'The change B/A − 1 over all studies', {
        parts: (row, value) => partsOf(row, value, 100 + row.changePercent),
      }),
      field('low', '%', (row) => row.lowPercent, 'The lower end of its interval'),
      field('high', '%', (row) => row.highPercent, 'The upper end of its interval'),
      field('change_db', 'dB', (row) => row.changeDb, 'The change in dB over all studies', {
        heading: 'change',
        parts: (row, value) => partsOf(row, value, decibelsPerNeper),
      }),
      figure('p', '', (row) => row.p),
      figure('outcome', '', (row) => row.outcome),
      detail('primary', ({ primary }) => primary, 'flag'),
      detail('family', ({ family }) => finite(family), 'number'),
      detail('standard_error', (row) => finite(row.standardError), 'number'),
      detail('degrees_of_freedom', (row) => finite(row.df), 'number'),
      detail(
        'studies',
        ({ studies }) =>
          studies.map((one) => ({
            study: one.name,
            change_percent: finite(one.changePercent),
            low_percent: finite(one.lowPercent),
            high_percent: finite(one.highPercent),
            standard_error: finite(one.standardError),
            degrees_of_freedom: finite(one.df),
          })),
        'rows',
      ),
      detail('guards', ({ guards }) => guards, 'texts'),
      detail('sentence', ({ sentence }) => sentence, 'text'),
    ],
    speakers: (rows) => {
      const primary = rows.filter((row) => row.primary);
      return primary.length === 1 ? primary : rows;
    },
    pick: { keep: (value, rows) => ({ ...value, rows }) },
  },
  drawn: 'frequency',
  runs: () => [],
} satisfies DrawnDescription<PooledValue, PooledRow>;
