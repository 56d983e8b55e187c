import { messages, type Sentences } from '../../result/messages.ts';

// Why the words of a plan, an order, a comparison or a claim don't fit together.

/** What is wrong with the words of a claim. */
export type ClaimFault =
  | { readonly fault: 'no-claim' | 'no-direction' | 'tolerance-alone' | 'tolerance-without-about' | 'no-tolerance' }
  | { readonly fault: 'no-worse-without-figure' | 'impossible' }
  /** A plain number, as it was written. */
  | { readonly fault: 'no-percent'; readonly figure: number }
  | { readonly fault: 'no-worse-with-bound'; readonly bound: string }
  | { readonly fault: 'bound-without-figure'; readonly bound: string; readonly direction: string };

export interface WordFacts {
  'claim.words': ClaimFault;
  'compare.methods': object;
  'order.seed': object;
  'adjust.words': { readonly column: string };
  'order.conditions': { readonly named: readonly string[]; readonly most: number };
  'repeats.both': object;
  'option.missing': { readonly option: 'detect' | 'spread' };
}

function claimSentence(facts: ClaimFault): string {
  switch (facts.fault) {
    case 'no-claim':
      return 'claim needs what is claimed, as in "reduction 15 %", or a comparison whose plan states it.';
    case 'no-direction':
      return 'Say which way the change is claimed to go, as in "reduction 15 %".';
    case 'tolerance-alone':
      return 'A tolerance goes with a claim, as in "claim reduction about 15 % tolerance 5 %".';
    case 'tolerance-without-about':
      return 'A tolerance goes with about, as in "reduction about 15 % tolerance 5 %".';
    case 'no-tolerance':
      return 'about needs a tolerance, as in "reduction about 15 % tolerance 5 %": 10 to 20 %.';
    case 'no-worse-without-figure':
      return 'no-worse needs a figure, as in "no-worse 5 %": an increase of no more than that.';
    case 'no-percent':
      return `${facts.figure} %? Write the unit, as in "${facts.figure} %" or "${facts.figure} dB".`;
    case 'no-worse-with-bound':
      return `no-worse is a bound itself: leave ${facts.bound} out.`;
    case 'bound-without-figure':
      return `${facts.bound} needs a figure, as in "${facts.direction} ${facts.bound} 15 %".`;
    case 'impossible':
      return 'A level can’t be reduced by 100 % or more: claim less.';
  }
}

const missing = {
  detect: 'reduction to detect, or equivalent and a margin',
  spread: 'spread from run to run',
} as const;

const sentences: Sentences<WordFacts> = {
  'claim.words': claimSentence,
  'compare.methods': () => 'Choose one of paired and trend: each takes another kind of wandering out.',
  'order.seed': () => 'A seed goes with blocks: without it nothing is left to chance.',
  'adjust.words': ({ column }) =>
    `exponent and uncertainty take a figure each, as in "adjust ${column} exponent 1.5 uncertainty 0.2".`,
  'order.conditions': ({ named, most }) =>
    `An order is of two conditions or more, up to ${most}, each with a name of its own, and not of "${named.join(', ')}": write "conditions foam, gel".`,
  'repeats.both': () => 'Choose one of detect and equivalent: a difference is to be shown, or that there is none.',
  'option.missing': ({ option }) => `repeats needs the ${missing[option]}, as in "repeats detect 5 % spread 4 %".`,
};

export const { refuse } = messages<WordFacts>(sentences);
