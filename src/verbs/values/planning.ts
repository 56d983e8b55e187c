import type { Claim } from '../../statistics/claimForm.ts';
import type { Band } from '../values.ts';

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
  readonly table: readonly {
    readonly runs: number;
    readonly smallestPercent: number;
    readonly halfWidthPercent: number;
  }[];
}

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

/** A run sheet as read. */
export interface SheetValue {
  readonly kind: 'sheet';
  readonly file: string;
  readonly columns: readonly string[];
  readonly rows: readonly SheetRow[];
}

export interface SheetRow {
  /** 1-based line in the sheet. */
  readonly line?: number;
  /** Relative to the notebook's folder; empty for a run that has no recording yet. */
  readonly file: string;
  readonly condition: string | undefined;
  readonly order: number | undefined;
  readonly excluded: boolean;
  readonly why: string | undefined;
  /** All cells of the row, by the column's header. */
  readonly facts: Readonly<Record<string, string>>;
}

/** What was settled before the data were looked at. */
export interface PlanValue {
  readonly kind: 'plan';
  /** Everything the plan states, in words, in a fixed order. */
  readonly entries: readonly { readonly word: string; readonly text: string }[];
  /** SHA-256 of the plan's text (its entries, one a line), lower-case hex. */
  readonly hash: string;
  /** The same in the terms that results are held against; what is left out was not settled. */
  readonly settled?: Settled;
}

export interface Settled {
  readonly question: string;
  readonly metric?: string;
  readonly channel?: string;
  readonly primary?: Band;
  readonly bands?: readonly Band[];
  readonly claim?: Claim;
  /** Where the claim stands. */
  readonly source?: string;
  /** Fractions. */
  readonly margin?: number;
  readonly confidence?: number;
  readonly method?: 'welch' | 'paired' | 'trend';
  /** Of each condition. */
  readonly runs?: number;
  /** As letters: `ABBABAAB`. */
  readonly order?: string;
}

/** How a result stands to the plan it was asked to follow. */
export interface PlanFollowed {
  readonly name: string;
  readonly hash: string;
  readonly question: string;
  readonly claim?: Claim;
  readonly source?: string;
  /** Every band that it names, the primary one first. */
  readonly bands?: readonly Band[];
  /** Those deviations that forbid a verdict, as clauses. */
  readonly unplanned?: readonly string[];
  /** One clause for each thing that is not as it was planned; empty when the plan was followed. */
  readonly deviations: readonly string[];
}
