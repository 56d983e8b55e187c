import { messages, type Sentences } from '../../result/messages.ts';
import { capitalised } from '../../result/words.ts';
import { describeDimension } from '../../units/dimension.ts';
import type { Dimension, Unit } from '../../units/unit.ts';

/** What can be wrong with quantities in an expression. */
export interface ExpressionFacts {
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

const sentences: Sentences<ExpressionFacts> = {
  'unit.dimension': dimensionSentence,
  'unit.level': () =>
    'A level in dB adds only to a level: turn it into a ratio first, or multiply it by a plain number.',
  'unit.exponent': ({ dimension }) => `An exponent is a plain number, and this is ${describeDimension(dimension)}.`,
  'arithmetic.zero': () => 'This divides by zero.',
  'arithmetic.finite': () => 'The result is no finite number.',
  'function.range': ({ function: name, zero }) =>
    zero ? `${name} wants a value of at least 0.` : `${name} wants values above zero.`,
};

export const { refuse } = messages(sentences);
