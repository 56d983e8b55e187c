/** What is known of a run. What is not known of all runs is of none. */
export interface KnownRun {
  /** Its condition; the same for all reference runs, which are made in between and are of no condition compared. */
  readonly condition: string;
  readonly isReference?: boolean;
  /** What it shares with the runs that it is compared with, and not with others; empty where there are no strata. */
  readonly stratum: string;
  readonly place?: number | undefined;
  readonly pair?: string | undefined;
  readonly day?: string | undefined;
  /** Which time its part was put on, within its condition and stratum. */
  readonly refit?: string | undefined;
  /** Of each covariate whose slope is fitted. */
  readonly covariates?: readonly number[] | undefined;
}

/** One condition against another. */
export interface Change {
  readonly from: string;
  readonly to: string;
}
