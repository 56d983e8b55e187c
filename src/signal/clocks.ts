/** A signal on its logger's own clock: unbroken pieces, each with the time of its first sample in s. */
export interface ClockedSignal {
  /** Hz */
  readonly rate: number;
  readonly pieces: readonly ClockedPiece[];
}

export interface ClockedPiece {
  readonly samples: Float64Array;
  readonly start: number;
}

/** What one clock shows at t of the other: t (1 + fast) - late, in s. */
export interface ClockLine {
  readonly late: number;
  readonly fast: number;
}

/** The clock of B against that of A, from what both recorded. */
export interface TwoClocks extends ClockLine {
  /** Standard; undefined where too few stretches tell it. */
  readonly lateError: number | undefined;
  /** Undefined where the clocks' rates could not be told apart, and `fast` is 0. */
  readonly fastError: number | undefined;
  /** Of the stretches' delays about the line, in s. */
  readonly scatter: number;
  /** Stretches that the line is drawn through. */
  readonly stretches: number;
  /** 1, or -1 where B reads the other way round. */
  readonly sign: 1 | -1;
  /** Largest distance of a stretch from the line, in s, and where it is on A's clock. */
  readonly farthest: { readonly by: number; readonly at: number };
}
