import { toMillisecond } from '../analysis/amounts.ts';
import { messages, type Sentences } from '../result/messages.ts';
import { capitalised, listed } from '../result/words.ts';
import { describeDimension } from '../units/dimension.ts';
import type { Dimension, Unit } from '../units/unit.ts';

/** What can be wrong with a call's arguments taken together. Times are in s. */
export interface CallFacts {
  'operand.missing': { readonly verb: 'load' | 'trim' };
  'option.value': { readonly option: 'decimal' | 'clock' };
  /** `range`: a range and options, else all three options. */
  'trim.twice': { readonly range: boolean };
  'range.backward': { readonly from: number; readonly to: number };
  'scale.words': object;
  /** What the levels were to be over. */
  'scale.reference': { readonly references: readonly string[] };
  'sheet.missing': { readonly option: 'where' | 'including' };
  /** `seconds` that fit into memory, and the verbs that work on all of the run. */
  'run.long': {
    readonly run: string;
    readonly verb: string;
    readonly seconds: number;
    readonly works: readonly string[];
  };
  'plot.mixed':
    | { readonly why: 'axes'; readonly time: string; readonly frequency: string }
    | { readonly why: 'orders' | 'options'; readonly axis: string };
}

function mixedPlot(facts: CallFacts['plot.mixed']): string {
  switch (facts.why) {
    case 'axes':
      return `A chart is over time, as for ${facts.time}, or over frequency, as for ${facts.frequency}: make two charts.`;
    case 'orders':
      return `A spectrum over ${facts.axis} shares a chart only with its like: make two charts.`;
    case 'options':
      return `The axis of this chart is ${facts.axis}, and \`over\` and \`mark\` are in Hz or s: leave them out.`;
  }
}

const callSentences: Sentences<CallFacts> = {
  'operand.missing': ({ verb }) =>
    verb === 'trim'
      ? 'trim needs the stretch to keep, as in "trim runs 5..80 s".'
      : 'load needs files, as in load "raw/*.csv", or a run sheet, as in load sheet "runs.csv".',
  'option.value': ({ option }) =>
    option === 'clock' ? 'clock is "hh:mm" or "mm:ss".' : `The ${option} mark is "." or ",".`,
  'trim.twice': ({ range }) =>
    range
      ? 'Give the stretch once: a range, or from, to and length.'
      : 'Two of from, to and length settle the stretch: leave one out.',
  'range.backward': ({ from, to }) =>
    `The stretch ends (${toMillisecond(to)}) before it begins (${toMillisecond(from)}).`,
  'sheet.missing': ({ option }) =>
    option === 'where'
      ? 'where chooses rows of a run sheet: name one, as in sheet "runs.csv".'
      : 'Only a run sheet excludes runs: name one, as in sheet "runs.csv".',
  'scale.words': () => 're goes with the scale in dB, as in "scale dB re 1e-6 m/s^2".',
  'scale.reference': ({ references }) =>
    `Nothing here has a level in dB over ${listed(references, 'or')}: a signal over time has none, and a reference is in the unit of the figures; write it after "re".`,
  'run.long': ({ run, verb, seconds, works }) =>
    `${run} is too large for memory, and ${verb} needs all of its samples at once: trim it to at most ${Math.floor(seconds)} s first; all of it is open to ${listed(works)}.`,
  'plot.mixed': mixedPlot,
};

/** What is wrong with the words of a claim. */
export type ClaimFault =
  | { readonly fault: 'no-claim' | 'no-direction' | 'tolerance-alone' | 'tolerance-without-about' | 'no-tolerance' }
  | { readonly fault: 'no-worse-without-figure' | 'impossible' }
  /** A plain number, as it was written. */
  | { readonly fault: 'no-percent'; readonly figure: number; readonly isTolerance: boolean }
  | { readonly fault: 'uncertain' }
  | { readonly fault: 'no-worse-with-bound'; readonly bound: string }
  | { readonly fault: 'bound-without-figure'; readonly bound: string; readonly direction: string };

/** Why the words of a plan, an order, a comparison or a claim do not fit together. */
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
      return `${facts.figure} %? Write the unit, as in "${facts.figure} %"${facts.isTolerance ? '' : ` or "${facts.figure} dB"`}.`;
    case 'uncertain':
      return 'What is claimed has no uncertainty: leave ± out, or write both bounds, as in "reduction about 15 % tolerance 5 %".';
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

const wordSentences: Sentences<WordFacts> = {
  'claim.words': claimSentence,
  'compare.methods': () => 'Choose one of paired and trend: each takes another kind of wandering out.',
  'order.seed': () => 'A seed goes with blocks: without it nothing is left to chance.',
  'adjust.words': ({ column }) =>
    `exponent takes a figure, and its standard uncertainty stands beside it once, as in "adjust ${column} exponent 1.5 ± 0.2".`,
  'order.conditions': ({ named, most }) =>
    `An order is of two conditions or more, up to ${most}, each with a name of its own, and not of "${named.join(', ')}": write "conditions foam, gel".`,
  'repeats.both': () => 'Choose one of detect and equivalent: a difference is to be shown, or that there is none.',
  'option.missing': ({ option }) => `repeats needs the ${missing[option]}, as in "repeats detect 5 % spread 4 %".`,
};

/** What can be wrong with quantities in an expression. */
export interface ExpressionFacts {
  'coverage.exact': object;
  /** `pairs`: what stands behind the first is no pairs of a coefficient and a quantity. */
  'correlated.words': { readonly why: 'pairs' | 'exact' | 'freedom' | 'impossible' };
  'correlation.exact': object;
  'unit.dimension':
    | { readonly operator: '+' | '-' | '*' | '/' | '^'; readonly left: Dimension; readonly right: Dimension }
    | { readonly to: Unit; readonly from: Dimension }
    | { readonly function: string; readonly one: Dimension; readonly other: Dimension };
  'unit.level': object;
  'unit.exponent': { readonly dimension: Dimension };
  'arithmetic.zero': object;
  'arithmetic.finite': object;
  /** The function wants values above 0, or of at least 0. */
  'function.range': { readonly function: string; readonly zero: boolean };
}

const correlatedWords = {
  pairs:
    'After the first quantity correlated takes pairs: a coefficient from -1 to 1 and the quantity that it is with, as in "correlated(i, -0.36, v)".',
  exact: 'Only quantities with an uncertainty are correlated: state it, as in "160 ± 5 N/mm".',
  freedom:
    'Stated correlations and degrees of freedom do not go together (JCGM 100:2008, G.4.1): leave dof out of what is correlated.',
  impossible: 'No quantity can be correlated so with the others: the coefficients contradict each other.',
} as const;

const joined = {
  '+': 'added to',
  '-': 'subtracted from',
  '*': 'multiplied by',
  '/': 'divided by',
  '^': 'raised to',
} as const;

function dimensionSentence(facts: ExpressionFacts['unit.dimension']): string {
  if ('operator' in facts) {
    const [a, b] = [facts.left, facts.right].map(describeDimension);
    return facts.operator === '-'
      ? `${capitalised(b)} can't be subtracted from ${a}: only like quantities add up.`
      : `${capitalised(a)} and ${b} can't be ${joined[facts.operator]} each other: only like quantities add up.`;
  }
  if ('to' in facts) {
    const { symbol, dimension } = facts.to;
    return `${capitalised(describeDimension(facts.from))} can't be given in ${symbol === '' ? 'plain numbers' : symbol}, which is for ${describeDimension(dimension)}.`;
  }
  const [one, other] = [facts.one, facts.other].map(describeDimension);
  return `${facts.function} compares like quantities, and here are ${one} and ${other}.`;
}

const expressionSentences: Sentences<ExpressionFacts> = {
  'unit.dimension': dimensionSentence,
  'unit.level': () =>
    'A level in dB adds only to a level: turn it into a ratio first, or multiply it by a plain number.',
  'unit.exponent': ({ dimension }) => `An exponent is a plain number, and this is ${describeDimension(dimension)}.`,
  'coverage.exact': () =>
    'This quantity has no uncertainty to expand: state those of its inputs, as in "160 ± 5 N/mm".',
  'correlated.words': ({ why }) => correlatedWords[why],
  'correlation.exact': () => 'A quantity without an uncertainty is correlated with none: both need one.',
  'arithmetic.zero': () => 'This divides by zero.',
  'arithmetic.finite': () => 'The result is no finite number.',
  'function.range': ({ function: name, zero }) =>
    zero ? `${name} wants a value of at least 0.` : `${name} wants values above zero.`,
};

export const { refuse } = messages<CallFacts & WordFacts & ExpressionFacts>({
  ...callSentences,
  ...wordSentences,
  ...expressionSentences,
});
