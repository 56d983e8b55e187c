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
