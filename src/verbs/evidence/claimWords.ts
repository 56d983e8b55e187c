import { isPossible, type Claim } from '../../statistics/claimForm.ts';
import type { Accept } from '../../language/form.ts';
import { si } from '../arguments.ts';
import { refuse, type Failure } from '../../result/result.ts';
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
export function claimFrom(words: ClaimWords, at: string): Claim | { readonly ok: false; readonly failure: Failure } {
  const { direction, bound, tolerance } = words;
  const of = words.of === 'power' ? 'power' : 'amplitude';
  const percent = percentOf(words.size, direction);
  const points = percentOf(tolerance, direction);
  const wrong = (message: string): { ok: false; failure: Failure } => refuse('claim.words', message, at);
  if (points !== undefined && bound !== 'about')
    return wrong('A tolerance goes with about, as in "reduction about 15 % tolerance 5 %".');
  if (direction === 'no-worse') {
    if (percent === undefined)
      return wrong('no-worse needs a figure, as in "no-worse 5 %": an increase of no more than that.');
    if (bound !== undefined) return wrong(`no-worse is a bound itself: leave ${bound} out.`);
    return possible({ kind: 'no worse than', percent, of }, wrong);
  }
  const way = direction === 'increase' ? 'increase' : 'reduction';
  if (percent === undefined) {
    if (bound !== undefined) return wrong(`${bound} needs a figure, as in "${way} ${bound} 15 %".`);
    return { kind: way === 'increase' ? 'increases' : 'reduces' };
  }
  if (bound === 'about') {
    if (points === undefined || !(points > 0))
      return wrong('about needs a tolerance, as in "reduction about 15 % tolerance 5 %": 10 to 20 %.');
    return possible({ kind: 'about', direction: way, percent, tolerancePercent: points, of }, wrong);
  }
  return possible({ kind: bound === 'at-most' ? 'at most' : 'at least', direction: way, percent, of }, wrong);
}

/** A claim of a change that a level can have. */
function possible(
  claim: Claim,
  wrong: (message: string) => { ok: false; failure: Failure },
): Claim | { ok: false; failure: Failure } {
  return isPossible(claim) ? claim : wrong('A level can’t be reduced by 100 % or more: claim less.');
}

/** In percent of amplitude or power, whichever is claimed; decibels are the same of both, and told as amplitude. */
function percentOf(argument: Argument | undefined, direction: string): number | undefined {
  if (argument?.type !== 'quantity') return undefined;
  const { quantity } = argument;
  if (quantity.unit.dimension.level === 0) return 100 * si(quantity);
  const ratio = 10 ** (quantity.value / 20);
  return 100 * (direction === 'reduction' ? 1 - 1 / ratio : ratio - 1);
}
