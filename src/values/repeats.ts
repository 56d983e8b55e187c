import { detail, field, figure, inPercent } from './columns.ts';
import type { DrawnDescription } from './description.ts';

/** How many runs of each a test needs. */
export interface RepeatsValue {
  readonly kind: 'repeats';
  /** The reduction that is to be shown, or the margin within which both are to be shown to be the same; fractions. */
  readonly detect?: number;
  readonly equivalent?: number;
  readonly spread: number;
  readonly power: number;
  readonly confidence: number;
  /** How many conditions, the baseline among them, whose changes hold together; 2 unless said. */
  readonly conditions?: number;
  /** Runs of each condition; undefined when more than can be reckoned with would be needed. */
  readonly runs: number | undefined;
  /** Power that this whole number of runs gives, as a fraction. */
  readonly reached?: number;
  /** The method that such a test is judged by: `trend` and `curve` of an interleaved order, `welch` of none. */
  readonly method?: string;
  /** What so many runs of each can show at that power: the smallest reduction, or the smallest margin, in percent. */
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
  summary: () => 'a number of repeats',
  caption: () => 'Runs of each condition',
  whole: [
    field('runs', '', ({ runs }) => runs, 'The runs of each condition of a plan of repeats'),
    figure('detect', '%', ({ detect }) => inPercent(detect)),
    figure('equivalent', '%', ({ equivalent }) => inPercent(equivalent)),
    figure('spread', '%', ({ spread }) => 100 * spread),
    field('power', '%', ({ reached }) => inPercent(reached), 'The power that so many runs give of a plan of repeats', {
      notIn: 'json and table',
    }),
    detail('power', ({ power }) => power, 'number'),
    figure('power_reached', '', ({ reached }) => reached),
    figure('confidence', '', ({ confidence }) => confidence),
    figure('method', '', ({ method }) => method),
    detail('conditions', ({ conditions = 2 }) => conditions),
  ],
  rows: {
    key: 'rows',
    of: ({ table }) => table,
    each: ['number of runs', 'a number of runs'],
    names: [figure('runs', '', ({ runs }) => runs, { title: 'Runs of each', each: 'as given' })],
    columns: [
      figure('smallest_reduction', '%', ({ smallestPercent }) => smallestPercent, {
        heading: ({ equivalent }) => (equivalent === undefined ? 'smallest reduction' : 'smallest margin'),
        digits: 3,
      }),
      figure('half_width', '%', ({ halfWidthPercent }) => halfWidthPercent, {
        heading: 'half-width of the interval',
        digits: 3,
      }),
    ],
  },
  drawn: 'itself',
  runs: () => [],
} satisfies DrawnDescription<RepeatsValue, RepeatsRow>;
