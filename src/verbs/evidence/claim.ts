import { bestCase } from '../../analysis/evidence/bestCase.ts';
import { claimedRow } from '../../analysis/evidence/claimedRow.ts';
import { verdictOf } from '../../analysis/evidence/verdict.ts';
import { success, type Result } from '../../result/result.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import type { Claim } from '../../values/plan.ts';
import {
  answer,
  answerOf,
  operand,
  option,
  rangesIn,
  textOf,
  uncertaintyIn,
  valueOf,
  wordOf,
  type Argument,
  type Arguments,
  type Verb,
  si,
  refuse,
  type ClaimFault,
} from '../verb.ts';
import type { Accept } from '../../language/form.ts';
import { boundWords, directionWords, isPossible, ofWords } from '../../analysis/evidence/claims.ts';
import { powerOf } from '../../numbers/power.ts';

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
  if (bare !== undefined) {
    const isTolerance = bareFigure(words.size).length === 0;
    return refuse('claim.words', { fault: 'no-percent', figure: bare, isTolerance }, at);
  }
  if ([words.size, words.tolerance].some((one) => uncertaintyIn(one) !== undefined))
    return refuse('claim.words', { fault: 'uncertain' }, at);
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
  if (bound === 'up-to') return { kind: 'up to', direction, percent, of };
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
  const ratio = powerOf(10, quantity.value / 20);
  return 100 * (direction === 'reduction' ? 1 - 1 / ratio : ratio - 1);
}

export const claim: Verb = {
  takesLong: true,
  needsNoSamples: true,
  form: {
    verb: 'claim',
    summary: 'Holds a claim against a comparison: supported, contradicted or not shown.',
    help: 'A claim is supported when the whole interval of the change lies where the claim is true, contradicted when none of it does, and otherwise not shown; at exactly the claimed value "not shown" is the honest answer 95 times of 100. A figure alone means "at least"; `at-most` and `about … tolerance` say otherwise, no figure means any reduction. `no-worse 5 %` is an increase of no more than 5 %. `up-to` is read as the best case, since it says nothing of any other: of all changes compared (bands, axes, conditions and strata that the claim does not name) it is supported when the whole interval of one lies where the figure is reached, and contradicted when no interval comes near it; what becomes of the same figure as something to be expected stands beside it. The best case is looked for among all that was compared, which its intervals allow for, since they hold together within one comparison; claims judged by several comparisons or studies are families of their own, and the rates at which one of them is wrongly supported add up. Percentages are of amplitude (r.m.s.); `of power` takes the figure as one of mean square, and both are shown: 15 % less amplitude is 27.75 % less power. Fewer than 3 runs a side, all runs of one side before the other’s, a fault in what is compared, rounding, clipping or noise that could move the change by a fifth of half its interval, speeds too far apart, a band under the noise floor, one that was not among those compared or one that the plan does not name forbid a verdict. Without words the claim of the comparison’s plan is judged. Of several conditions it names one (`claim C rubber reduction 30 %`), of several axes one with `axis`; of strata it is about all together unless `stratum` names one.',
    operands: [
      { name: 'comparison', doc: 'What was found.', accepts: [{ type: 'value', kinds: ['comparison'] }] },
      {
        name: 'condition',
        doc: 'Which of several conditions, as the comparison names it.',
        accepts: [
          { type: 'value', kinds: ['runs', 'spectrum', 'transfer'] },
          { type: 'text', role: 'label' },
          { type: 'channel', role: 'label' },
        ],
        optional: true,
      },
      { name: 'direction', doc: 'Which way.', accepts: [{ type: 'word', words: directionWords }], optional: true },
      {
        name: 'bound',
        doc: 'How the figure is meant.',
        accepts: [{ type: 'word', words: boundWords }],
        optional: true,
      },
      { name: 'size', doc: 'By how much, in % or dB.', accepts: sizeAccepts, optional: true },
    ],
    options: [
      {
        keyword: 'of',
        doc: 'What the percentage is of.',
        accepts: [{ type: 'word', words: ofWords }],
        default: 'amplitude',
      },
      {
        keyword: 'tolerance',
        doc: 'Points either way, for about.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0 }],
      },
      {
        keyword: 'over',
        mistaken: ['band', 'bands'],
        doc: 'The band that the claim is about.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        default: 'the primary or only band of the comparison',
      },
      { keyword: 'axis', doc: 'Which of several axes.', accepts: [{ type: 'channel' }] },
      {
        keyword: 'stratum',
        doc: 'Which of several strata.',
        accepts: [{ type: 'channel', role: 'label' }],
        default: 'all of them together',
      },
      { keyword: 'source', doc: 'Where the claim stands.', accepts: [{ type: 'text', role: 'label' }] },
    ],
    gives: 'verdict',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\nbricks = compare foam with gel over 10..50 Hz\nclaim bricks reduction 15 % source "leaflet"',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\nbricks = compare foam with gel primary 10..50 Hz over 4..10 Hz\nclaim bricks no-worse 5 % over 4..10 Hz',
    ],
  },
  evaluate(given, { watch }) {
    const comparison = valueOf(given, 'comparison', 'comparison');
    const claim = claimIn(given, comparison);
    if (!claim.ok) return claim;
    const [over] = rangesIn(given.options.over ?? []);
    const about = {
      band: over,
      condition: conditionIn(operand(given, 'condition')),
      axis: textOf(option(given, 'axis')),
      stratum: textOf(option(given, 'stratum')),
    };
    const planned = given.operands.direction === undefined ? comparison.plan?.source : undefined;
    const source = textOf(option(given, 'source')) ?? planned;
    if (claim.value.kind === 'up to') {
      const best = bestCase(claim.value, comparison, about, source);
      if (best !== undefined) return answerOf(best);
    }
    const claimed = claimedRow(comparison, about, watch);
    if (!claimed.ok) return claimed;
    const { row, warnings } = claimed.value;
    return answer(verdictOf(claim.value, claimed.value.comparison, row, source), warnings);
  },
};

/** What a condition is called: by the text, as its set, or by the name it is bound to. */
function conditionIn(argument: Argument | undefined): string | undefined {
  if (argument?.type !== 'value') return textOf(argument);
  const { value, name } = argument;
  return ('set' in value ? value.set : undefined) ?? name;
}

/** The claim in words, or that of the comparison's plan. */
function claimIn(given: Arguments, { plan }: ComparisonValue): Result<Claim> {
  const direction = wordOf(operand(given, 'direction'));
  if (direction !== undefined) {
    const words = {
      direction,
      bound: wordOf(operand(given, 'bound')),
      size: operand(given, 'size'),
      of: wordOf(option(given, 'of')),
      tolerance: option(given, 'tolerance'),
    };
    return claimFrom(words, given.operands.size === undefined ? 'direction' : 'size');
  }
  if ((given.operands.bound ?? given.operands.size ?? given.options.of ?? given.options.tolerance) !== undefined)
    return refuse('claim.words', { fault: 'no-direction' }, 'comparison');
  return plan?.claim === undefined ? refuse('claim.words', { fault: 'no-claim' }, 'comparison') : success(plan.claim);
}
