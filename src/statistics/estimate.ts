import { studentTTwoSided } from './distributions/studentT.ts';

/** A difference of means on the logarithmic scale, with what is known of its error. */
export interface Estimate {
  /** mean ln B - mean ln A. */
  readonly difference: number;
  /** Standard error of the difference; above 0. */
  readonly standardError: number;
  /** Degrees of freedom, need not be whole. */
  readonly df: number;
  /** How far ln of each covariate of a stated power is above in B what it is in A, by the weights of the runs. */
  readonly apart?: readonly number[];
  /** The error by the runs alone, where a stated uncertainty was added: no statement is closer than it. */
  readonly byRuns?: Pick<Estimate, 'standardError' | 'df'>;
}

/**
 * Standard errors of ln(level) at or below this are rounding, not scatter: the runs are one and the same.
 */
const rounding = 1e-12;

/** Whether a standard deviation of ln(level) is rounding alone. */
export const meansNoScatter = (deviation: number): boolean => !(deviation > rounding);

/** The estimate itself, or undefined when the runs do not scatter beyond rounding: then they are one and the same. */
export function ifScattered<E extends Estimate>(estimate: E): E | undefined {
  return meansNoScatter(estimate.standardError) ? undefined : estimate;
}

/** An interval of ratios B/A. */
export interface RatioInterval {
  readonly low: number;
  readonly high: number;
}

/** Two-sided p of "no change", d = 0. */
export function twoSidedP(estimate: Estimate): number {
  const { difference } = estimate;
  return Math.max(
    ...errorsOf(estimate).map(({ standardError, df }) => studentTTwoSided(difference / standardError, df)),
  );
}

/**
 * The errors that a statement holds against, each by itself: Satterthwaite's degrees of freedom grow with an added variance
 * that is known, so that t falls, and limits would close where an uncertainty is stated (Ballico 2000, Metrologia 37(1)).
 * The wider one counts.
 */
export const errorsOf = ({
  standardError,
  df,
  byRuns,
}: Estimate): readonly Pick<Estimate, 'standardError' | 'df'>[] => [
  { standardError, df },
  ...(byRuns === undefined ? [] : [byRuns]),
];
