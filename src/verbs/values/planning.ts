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
}

/** A run sheet as read. */
export interface SheetValue {
  readonly kind: 'sheet';
  readonly file: string;
  readonly columns: readonly string[];
  readonly rows: readonly SheetRow[];
}

export interface SheetRow {
  /** Relative to the notebook's folder. */
  readonly file: string;
  readonly condition: string | undefined;
  readonly order: number | undefined;
  readonly excluded: boolean;
  readonly why: string | undefined;
  /** All cells of the row, by column. */
  readonly facts: Readonly<Record<string, string>>;
}

/** What was settled before the data were looked at. */
export interface PlanValue {
  readonly kind: 'plan';
  readonly entries: readonly { readonly word: string; readonly text: string }[];
  /** SHA-256 of the plan's text, lower-case hex. */
  readonly hash: string;
}
