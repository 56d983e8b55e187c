import type { RatioInterval } from './estimate.ts';

interface Numbered {
  /** Size of the change in percent of what `of` says; 0 or more where the claim has a direction. */
  readonly percent: number;
  readonly of?: 'amplitude' | 'power' | undefined;
}

interface Directed extends Numbered {
  readonly direction: 'reduction' | 'increase';
}

type NumberedClaim =
  | (Directed & { readonly kind: 'at least' | 'at most' })
  /** "Up to 15 %": so much in the best case, and nothing is said of any other. */
  | (Directed & { readonly kind: 'up to' })
  /** "About 15 %": within `tolerancePercent` points either way. */
  | (Directed & { readonly kind: 'about'; readonly tolerancePercent: number })
  /** "No worse than 5 %": an increase of at most so much. */
  | (Numbered & { readonly kind: 'no worse than' });

/**
 * A claim about the change from A to B, as someone states it: with a number, or just "reduces" or "increases".
 * Percentages are of amplitude unless `of` says otherwise.
 */
export type Claim = NumberedClaim | { readonly kind: 'reduces' } | { readonly kind: 'increases' };

/** Whether a level can change as claimed: by no less than nothing, with a tolerance above 0, and never down to 0. */
export const isPossible = (claim: Claim): boolean => faultOf(claim) === undefined;

function faultOf(claim: Claim): string | undefined {
  if (claim.kind === 'reduces' || claim.kind === 'increases') return undefined;
  const { kind, percent } = claim;
  if (kind !== 'no worse than' && !(percent >= 0)) return `the claimed percentage must be 0 or more, but is ${percent}`;
  const tolerance = kind === 'about' ? claim.tolerancePercent : 0;
  if (kind === 'about' && !(tolerance > 0)) return `the tolerance of "about" must be above 0, but is ${tolerance}`;
  const least = signOf(claim) * percent - tolerance;
  return least > -100 && least < Infinity ? undefined : `a change of ${least} % is none that a level can have`;
}

/**
 * The ratios B/A of amplitudes for which the claim is true. "At least 15 % less" is 0 .. 0.85; a claim about power
 * (mean square) is turned into amplitude by the square root, so 27.75 % less power is the same claim. Of "up to" they
 * are those of its best case, which are those of "at least".
 *
 * @throws RangeError for a claim that is not possible (see `isPossible`)
 */
export function claimZone(claim: Claim): RatioInterval {
  const fault = faultOf(claim);
  if (fault !== undefined) throw new RangeError(fault);
  if (claim.kind === 'reduces') return { low: 0, high: 1 };
  if (claim.kind === 'increases') return { low: 1, high: Infinity };
  const change = signOf(claim) * claim.percent;
  if (claim.kind === 'about') {
    const { tolerancePercent, of } = claim;
    return { low: ratioOf(change - tolerancePercent, of), high: ratioOf(change + tolerancePercent, of) };
  }
  const ratio = ratioOf(change, claim.of);
  // A reduction of at least so much lies below the ratio; an increase of at least so much above it.
  const below = claim.kind === 'no worse than' || (claim.kind !== 'at most') === (claim.direction === 'reduction');
  return below ? { low: 0, high: ratio } : { low: ratio, high: Infinity };
}

/** A change in percent of amplitude and of power (mean square); negative is a reduction. */
export interface BothWays {
  readonly amplitudePercent: number;
  readonly powerPercent: number;
}

/**
 * The claimed number both ways, because a maker's "28 %" of power and 15 % of amplitude may be the same fact.
 *
 * @returns percent, negative for a reduction; undefined for a claim without a number
 */
export function claimedBothWays(claim: Claim): BothWays | undefined {
  if (claim.kind === 'reduces' || claim.kind === 'increases') return undefined;
  const ratio = ratioOf(signOf(claim) * claim.percent, claim.of);
  return { amplitudePercent: 100 * (ratio - 1), powerPercent: 100 * (ratio * ratio - 1) };
}

const signOf = (claim: NumberedClaim): 1 | -1 =>
  claim.kind !== 'no worse than' && claim.direction === 'reduction' ? -1 : 1;

function ratioOf(changePercent: number, of: 'amplitude' | 'power' | undefined): number {
  const ratio = 1 + changePercent / 100;
  return of === 'power' ? Math.sqrt(ratio) : ratio;
}
