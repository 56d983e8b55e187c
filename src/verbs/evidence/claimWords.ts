import type { Accept } from '../../language/form.ts';
import { isPossible } from '../../analysis/evidence/claims.ts';
import { success, type Result } from '../../result/result.ts';
import type { Claim } from '../../values/plan.ts';
import { si } from '../arguments.ts';
import { refuse, type ClaimFault } from '../messages/evidence.ts';
import type { Argument } from '../verb.ts';

/** How a claim is written, in a `claim` and in a `plan`: `reduction 15 %`, `reduction at-most 15 %`, `no-worse 5 %`. */
export const directionWords = ['reduction', 'increase', 'no-worse'] as const;
export const boundWords = ['at-least', 'at-most', 'about'] as const;
export const ofWords = ['amplitude', 'power'] as const;

export const sizeAccepts: readonly Accept[] = [
  { type: 'quantity', dimension: 'ratio', least: 0 },
  { type: 'quantity', dimension: 'level' },
];

export interface ClaimWords {
  readonly direction: string;
  readonly bound: string | undefined;
  readonly size: Argument | undefined;
  readonly of: string | undefined;
  readonly tolerance: Argument | undefined;
}

/** The claim that the words make, or why they make none. @param at the operand or option to blame */
export function claimFrom(words: ClaimWords, at: string): Result<Claim> {
  const bare = [words.size, words.tolerance].flatMap(bareFigure).at(0);
  if (bare !== undefined) return refuse('claim.words', { fault: 'no-percent', figure: bare }, at);
  const found = words.direction === 'no-worse' ? noWorseClaim(words) : directedClaim(words);
  if ('fault' in found) return refuse('claim.words', found, at);
  return isPossible(found) ? success(found) : refuse('claim.words', { fault: 'impossible' }, at);
}

/** A plain number of 1 or more, which would be 100 % or more and more likely lacks its `%`. */
function bareFigure(argument: Argument | undefined): readonly number[] {
  if (argument?.type !== 'quantity') return [];
  const { value, unit } = argument.quantity;
  return unit.symbol === '' && value >= 1 ? [value] : [];
}

function noWorseClaim(words: ClaimWords): Claim | ClaimFault {
  const { bound, tolerance, size, direction } = words;
  const percent = percentOf(size, direction);
  if (tolerance !== undefined && bound !== 'about') return { fault: 'tolerance-without-about' };
  if (percent === undefined) return { fault: 'no-worse-without-figure' };
  return bound === undefined
    ? { kind: 'no worse than', percent, of: measureOf(words) }
    : { fault: 'no-worse-with-bound', bound };
}

function directedClaim(words: ClaimWords): Claim | ClaimFault {
  const { bound, size } = words;
  const direction = words.direction === 'increase' ? 'increase' : 'reduction';
  const percent = percentOf(size, direction);
  const tolerancePercent = percentOf(words.tolerance, direction);
  const of = measureOf(words);
  if (tolerancePercent !== undefined && bound !== 'about') return { fault: 'tolerance-without-about' };
  if (percent === undefined) {
    if (bound !== undefined) return { fault: 'bound-without-figure', bound, direction };
    return { kind: direction === 'increase' ? 'increases' : 'reduces' };
  }
  if (bound !== 'about') return { kind: bound === 'at-most' ? 'at most' : 'at least', direction, percent, of };
  if (tolerancePercent === undefined || !(tolerancePercent > 0)) return { fault: 'no-tolerance' };
  return { kind: 'about', direction, percent, tolerancePercent, of };
}

const measureOf = ({ of }: ClaimWords): 'amplitude' | 'power' => (of === 'power' ? 'power' : 'amplitude');

/** In percent of amplitude or power, whichever is claimed; decibels are the same of both, and told as amplitude. */
function percentOf(argument: Argument | undefined, direction: string): number | undefined {
  if (argument?.type !== 'quantity') return undefined;
  const { quantity } = argument;
  if (quantity.unit.dimension.level === 0) return 100 * si(quantity);
  const ratio = 10 ** (quantity.value / 20);
  return 100 * (direction === 'reduction' ? 1 - 1 / ratio : ratio - 1);
}
