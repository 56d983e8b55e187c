import { detail, figure } from './columns.ts';
import { cellsOf } from './cells.ts';
import type { Description } from './description.ts';

/** An order of runs, and what a steady drift would do to it. */
export interface OrderValue {
  readonly kind: 'order';
  readonly scheme: string;
  readonly sequence: readonly ('A' | 'B')[];
  /** How far a drift of 1 % a run would lean the change, in percent. */
  readonly leanPercent: number;
  /** Names of A and B. */
  readonly conditions?: readonly [a: string, b: string];
  /** A run sheet to be filled in, as text of a CSV file. */
  readonly sheet?: string;
}

/** Its table has a row a run. */
export const orderKind = {
  kind: 'order',
  words: 'an order of runs',
  whole: [
    figure('scheme', '', ({ scheme }) => scheme),
    detail('sequence', ({ sequence }) => sequence),
    figure('lean', '%', ({ leanPercent }) => leanPercent),
    detail('conditions', ({ conditions }) => conditions ?? null),
    figure('sheet', '', ({ sheet }) => sheet),
  ],
  table: ({ sequence, conditions }) =>
    cellsOf(
      'Order of the runs',
      [
        ['order', ''],
        ['condition', ''],
      ],
      sequence.map((letter, index) => [index + 1, conditions?.[letter === 'A' ? 0 : 1] ?? letter]),
    ),
  runs: () => [],
} satisfies Description<OrderValue>;
