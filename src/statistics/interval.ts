import { studentTInterval, studentTSurvival } from './distributions/studentT.ts';
import { multipleTLimit, multipleTSurvival, type MultipleT } from './distributions/multipleT.ts';
import { errorsOf, type Estimate, type RatioInterval } from './estimate.ts';
import { expOf } from '../numbers/exponential.ts';

/** What is said of one row, and all that is said of it: rows, claims, sentences and charts read these and no others. */
export interface Statement {
  /** Interval of the ratio B/A, valid for all rows of the family at once. */
  readonly interval: RatioInterval;
  /** Two-sided p of "no change", min(1, m p): at most 1 - confidence exactly where the interval leaves 1 out. */
  readonly p: number;
}

/** Rows of a family that share one estimate of the scatter, `count` of them in each band. */
export interface Jointly {
  readonly count: number;
  readonly of: MultipleT;
}

/**
 * The single-step simultaneous statement (Bonferroni; Dunn 1961): d -+ t(1 - alpha/(2m)) se, and p times m. Whatever
 * thresholds are asked of such intervals, the chance that any of m is wrong stays within alpha.
 *
 * @param confidence 1 - alpha, for instance 0.95
 * @param family m, how many rows are stated together; 1 for the one that was named in advance
 * @param jointly where the rows of each band share their scatter: Dunnett's or Tukey's limit among them, and Bonferroni's
 *   over the bands
 */
export function statement(estimate: Estimate, confidence: number, family: number, jointly?: Jointly): Statement {
  const { difference } = estimate;
  const said = errorsOf(estimate).map(({ standardError, df }) =>
    reachAndP({ difference, standardError, df }, confidence, family, jointly),
  );
  const reach = Math.max(...said.map((one) => one.reach));
  return {
    interval: { low: expOf(difference - reach), high: expOf(difference + reach) },
    p: Math.max(...said.map(({ p }) => p)),
  };
}

function reachAndP(
  { difference, standardError, df }: Estimate,
  confidence: number,
  family: number,
  jointly: Jointly | undefined,
): { readonly reach: number; readonly p: number } {
  const t = Math.abs(difference / standardError);
  if (jointly !== undefined) {
    const bands = family / jointly.count;
    return {
      reach: multipleTLimit((1 - confidence) / bands, df, jointly.of) * standardError,
      p: Math.min(1, bands * multipleTSurvival(t, df, jointly.of)),
    };
  }
  return {
    reach: studentTInterval(1 - (1 - confidence) / family, df) * standardError,
    p: Math.min(1, 2 * family * studentTSurvival(t, df)),
  };
}
