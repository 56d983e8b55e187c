import type { Equivalence } from './equivalence.ts';
import type { RatioInterval } from './estimate.ts';

/** What a comparison found, in one word. */
export type Outcome = 'lower' | 'higher' | 'equivalent' | 'unclear';

/** Which way B differs from A, or undefined when no difference is shown. */
export type Direction = 'lower' | 'higher';

/**
 * The direction that is shown at the given confidence.
 *
 * @param ratio B/A of amplitudes
 * @param p two-sided p, adjusted for its family where there is one
 * @param confidence for instance 0.95
 * @returns undefined when no difference is shown
 */
export function shownDirection(ratio: number, p: number, confidence: number): Direction | undefined {
  if (!(p <= 1 - confidence)) return undefined;
  return ratio < 1 ? 'lower' : 'higher';
}

/**
 * The outcome in one word. A difference that is shown but lies within the declared margin is `equivalent`:
 * the margin says what size of difference matters, and the direction is told apart from it.
 * No difference shown is `unclear`, never "the same".
 */
export function outcome(direction: Direction | undefined, equivalence: Equivalence | undefined): Outcome {
  if (equivalence?.equivalent) return 'equivalent';
  return direction ?? 'unclear';
}

/** What the data rule out at the confidence of the interval. All in percent of amplitude, at least 0. */
export interface Exclusion {
  /** A reduction of more than this is ruled out; 0 when any reduction is. */
  readonly reductionPercent: number;
  /** An increase of more than this is ruled out; 0 when any increase is. */
  readonly increasePercent: number;
  /** A change of more than this, either way, is ruled out. */
  readonly eitherWayPercent: number;
}

/** What an interval of the ratio B/A rules out, in percent of amplitude. */
export function exclusion({ low, high }: RatioInterval): Exclusion {
  const reductionPercent = Math.max(0, 100 * (1 - low));
  const increasePercent = Math.max(0, 100 * (high - 1));
  return { reductionPercent, increasePercent, eitherWayPercent: Math.max(reductionPercent, increasePercent) };
}
