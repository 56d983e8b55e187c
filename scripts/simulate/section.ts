import type { Limits } from './limits.ts';

/** How much is simulated. The same amount and seed give the same report, to the digit. */
export interface Amount {
  readonly seed: number;
  readonly rides: number;
  readonly experiments: number;
}

/** A section's Markdown; what its figures break is told to `checked`. */
export type Part = (amount: Amount, checked: Limits) => string | Promise<string>;

export const section = (title: string, text: string, table: string): string => `## ${title}\n\n${text}\n\n${table}`;
