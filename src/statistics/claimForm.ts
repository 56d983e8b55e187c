import type { RatioInterval } from './estimate.ts';

/** A claim about the change from A to B, as someone states it. Percentages are of amplitude unless `of` says otherwise. */
export type Claim =
  | {
      readonly kind: 'at least';
      readonly direction: 'reduction' | 'increase';
      readonly percent: number;
      readonly of?: 'amplitude' | 'power' | undefined;
    }
  | {
      readonly kind: 'at most';
      readonly direction: 'reduction' | 'increase';
      readonly percent: number;
      readonly of?: 'amplitude' | 'power' | undefined;
    }
  | {
      /** "About 15 %": within `tolerancePercent` points either way. */
      readonly kind: 'about';
      readonly direction: 'reduction' | 'increase';
      readonly percent: number;
      readonly tolerancePercent: number;
      readonly of?: 'amplitude' | 'power' | undefined;
    }
  /** "No worse than 5 %": an increase of at most so much. */
  | { readonly kind: 'no worse than'; readonly percent: number; readonly of?: 'amplitude' | 'power' | undefined }
  /** "Reduces" or "increases", without a number. */
  | { readonly kind: 'reduces' }
  | { readonly kind: 'increases' };

/**
 * The ratios B/A of amplitudes for which the claim is true. "At least 15 % less" is 0 .. 0.85; a claim about power
 * (mean square) is turned into amplitude by the square root, so 27.75 % less power is the same claim.
 *
 * @throws RangeError for a percentage that no ratio can have
 */
export function claimZone(claim: Claim): RatioInterval {
  if (claim.kind === 'reduces') return { low: 0, high: 1 };
  if (claim.kind === 'increases') return { low: 1, high: Infinity };
  const of = claim.of ?? 'amplitude';
  if (claim.kind === 'no worse than') return { low: 0, high: ratioOf(claim.percent, of) };
  const sign = claim.direction === 'reduction' ? -1 : 1;
  if (!(claim.percent >= 0)) throw new RangeError(`the claimed percentage must be 0 or more, but is ${claim.percent}`);
  if (claim.kind === 'about') {
    const { percent, tolerancePercent } = claim;
    if (!(tolerancePercent > 0))
      throw new RangeError(`the tolerance of "about" must be above 0, but is ${tolerancePercent}`);
    return {
      low: ratioOf(sign * percent - tolerancePercent, of),
      high: ratioOf(sign * percent + tolerancePercent, of),
    };
  }
  const ratio = ratioOf(sign * claim.percent, of);
  // A reduction of at least so much lies below the ratio; an increase of at least so much above it.
  return (claim.kind === 'at least') === sign < 0 ? { low: 0, high: ratio } : { low: ratio, high: Infinity };
}

/** The claim in words, with the number as it was claimed: "a reduction of at least 15 %". */
export function claimText(claim: Claim): string {
  if (claim.kind === 'reduces') return 'a reduction';
  if (claim.kind === 'increases') return 'an increase';
  const of = claim.of === 'power' ? ' of power' : '';
  if (claim.kind === 'no worse than') return `an increase of no more than ${plain(claim.percent)} %${of}`;
  const what = claim.direction === 'reduction' ? 'a reduction' : 'an increase';
  const around = claim.kind === 'about' ? ` (within ${plain(claim.tolerancePercent)} points)` : '';
  return `${what} of ${claim.kind} ${plain(claim.percent)} %${of}${around}`;
}

/**
 * The claimed number both ways, because a maker's "28 %" of power and 15 % of amplitude may be the same fact.
 * Undefined for a claim without a number. Negative is a reduction.
 */
export function claimedBothWays(
  claim: Claim,
): { readonly amplitudePercent: number; readonly powerPercent: number } | undefined {
  if (claim.kind === 'reduces' || claim.kind === 'increases') return undefined;
  const sign = claim.kind !== 'no worse than' && claim.direction === 'reduction' ? -1 : 1;
  const ratio = ratioOf(sign * claim.percent, claim.of ?? 'amplitude');
  return { amplitudePercent: 100 * (ratio - 1), powerPercent: 100 * (ratio * ratio - 1) };
}

function ratioOf(changePercent: number, of: 'amplitude' | 'power'): number {
  const ratio = 1 + changePercent / 100;
  if (!(ratio > 0 && ratio < Infinity))
    throw new RangeError(`a change of ${changePercent} % is none that a level can have`);
  return of === 'power' ? Math.sqrt(ratio) : ratio;
}

/** A number as people write it: up to 4 significant digits and no trailing zeros. */
export function plain(value: number): string {
  return String(Number(value.toPrecision(4)));
}
