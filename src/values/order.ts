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
