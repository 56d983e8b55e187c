import { detail, figure } from './columns.ts';
import { cellsOf } from './cells.ts';
import type { Description } from './description.ts';

/** An order of runs, and what a steady drift would do to it. */
export interface OrderValue {
  readonly kind: 'order';
  readonly scheme: string;
  /** The letter of each run's condition: A of the first one named, then B, C … */
  readonly sequence: readonly string[];
  /** How far a drift of 1 % a run would lean the change from A, in percent; of several the one that leans most. */
  readonly leanPercent: number;
  /** Names of A, B, C … */
  readonly conditions?: readonly string[];
  /** A run sheet to be filled in, as text of a CSV file. */
  readonly sheet?: string;
}

/** What the condition of a letter is called. */
export const conditionNamed = (letter: string, conditions: readonly string[] = []): string =>
  conditions.at(letter.charCodeAt(0) - 'A'.charCodeAt(0)) ?? letter;

/** Its table has a row a run. */
export const orderKind = {
  kind: 'order',
  words: 'an order of runs',
  summary: () => 'an order of runs',
  whole: [
    figure('scheme', '', ({ scheme }) => scheme),
    detail('sequence', ({ sequence }) => sequence, 'texts'),
    figure('lean', '%', ({ leanPercent }) => leanPercent),
    detail('conditions', ({ conditions }) => conditions ?? null, 'texts'),
    figure('sheet', '', ({ sheet }) => sheet),
  ],
  table: ({ sequence, conditions }) =>
    cellsOf(
      'Order of the runs',
      [
        ['order', ''],
        ['condition', ''],
      ],
      sequence.map((letter, index) => [index + 1, conditionNamed(letter, conditions)]),
    ),
  runs: () => [],
} satisfies Description<OrderValue>;
