import { inPercent } from './columns.ts';
import type { DrawnDescription } from './description.ts';

/** How many runs of each a test needs. */
export interface RepeatsValue {
  readonly kind: 'repeats';
  /** Fractions. */
  readonly detect: number;
  readonly spread: number;
  readonly power: number;
  readonly confidence: number;
  /** Runs of each condition; undefined when more than can be reckoned with would be needed. */
  readonly runs: number | undefined;
  /** Power that this whole number of runs gives, as a fraction. */
  readonly reached?: number;
  /** What so many runs of each can show at that power: the smallest reduction, in percent. */
  readonly table: readonly RepeatsRow[];
}

export interface RepeatsRow {
  readonly runs: number;
  readonly smallestPercent: number;
  readonly halfWidthPercent: number;
}

export const repeatsKind = {
  kind: 'repeats',
  words: 'a number of repeats',
  caption: () => 'Runs of each condition',
  whole: [
    {
      key: 'runs',
      read: ({ runs }) => runs,
      doc: 'The runs of each condition of a plan of repeats',
      dimension: 'ratio',
    },
    { key: 'detect', unit: '%', read: ({ detect }) => 100 * detect },
    { key: 'spread', unit: '%', read: ({ spread }) => 100 * spread },
    {
      key: 'power',
      unit: '%',
      read: ({ reached }) => inPercent(reached),
      doc: 'The power that so many runs give of a plan of repeats',
      dimension: 'ratio',
      notIn: 'json and table',
    },
    { key: 'power', json: ({ power }) => power },
    { key: 'power_reached', read: ({ reached }) => reached },
    { key: 'confidence', read: ({ confidence }) => confidence },
  ],
  rows: {
    key: 'rows',
    of: ({ table }) => table,
    each: ['number of runs', 'a number of runs'],
    names: [{ key: 'runs', read: ({ runs }) => runs, shown: { title: 'Runs of each', each: 'as given' } }],
    columns: [
      {
        key: 'smallest_reduction',
        heading: 'smallest reduction',
        unit: '%',
        read: ({ smallestPercent }) => smallestPercent,
        shown: { digits: 3 },
      },
      {
        key: 'half_width',
        heading: 'half-width of the interval',
        unit: '%',
        read: ({ halfWidthPercent }) => halfWidthPercent,
        shown: { digits: 3 },
      },
    ],
  },
  drawn: 'itself',
  runs: () => [],
} satisfies DrawnDescription<RepeatsValue, RepeatsRow>;
