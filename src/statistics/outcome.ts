import type { RatioInterval } from './estimate.ts';

/** What a comparison found, in one word. */
export type Outcome = 'lower' | 'higher' | 'equivalent' | 'not shown';

/** Which way B differs from A, where a difference is shown. */
export type Direction = 'lower' | 'higher';

/** The direction that an interval of the ratio B/A shows: it leaves 1 out. */
export function shownDirection({ low, high }: RatioInterval): Direction | undefined {
  if (high < 1) return 'lower';
  return low > 1 ? 'higher' : undefined;
}

/**
 * The outcome in one word. A difference that is shown but lies within the declared margin is `equivalent`:
 * the margin says what size of difference matters, and the direction is told apart from it.
 * No difference shown is `not shown`, never "the same".
 */
export function outcome(direction: Direction | undefined, equivalent: boolean | undefined): Outcome {
  if (equivalent === true) return 'equivalent';
  return direction ?? 'not shown';
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

/** What an interval of the ratio B/A rules out. */
export function exclusion({ low, high }: RatioInterval): Exclusion {
  const reductionPercent = Math.max(0, 100 * (1 - low));
  const increasePercent = Math.max(0, 100 * (high - 1));
  return { reductionPercent, increasePercent, eitherWayPercent: Math.max(reductionPercent, increasePercent) };
}
