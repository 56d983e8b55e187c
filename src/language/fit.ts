import { parseUnit, isUnit } from '../units/parse.ts';
import { sameDimension, dimensionOf } from '../units/dimension.ts';
import type { Accept, DimensionName, Form, OperandForm } from './form.ts';
import type { Operand } from './tree.ts';
import type { Vocabulary } from './vocabulary.ts';

/** What matching needs to know beyond the form: the words of the language, the names bound, the text. */
export interface FitContext {
  readonly vocabulary: Vocabulary;
  readonly bound: (name: string) => boolean;
  readonly text: string;
}

const computed = new Set<Operand['type']>([
  'negative',
  'binary',
  'convert',
  'uncertain',
  'coverage',
  'call',
  'pick',
  'field',
  'bracket',
  'missing',
]);

/** The text that a unit standing alone is read from: `m/s^2` was read as a division of words. */
export const sliceOf = (text: string, node: Operand): string => text.slice(node.place.from, node.place.to);

/** A word's form for a step written in place: with its verb, or beginning with one of its first operand's words. */
export function inPlace(
  accept: Accept,
  word: string,
  vocabulary: Vocabulary,
): { form: Form; named: boolean } | undefined {
  if (accept.type !== 'step') return undefined;
  const form = vocabulary.verbs.get(accept.verb);
  if (!form) return undefined;
  if (word === accept.verb) return { form, named: true };
  const starts = form.operands[0]?.accepts.some((first) => first.type === 'word' && first.words.includes(word));
  return starts ? { form, named: false } : undefined;
}

const hasDimension = (unit: string, name: DimensionName): boolean => {
  const parsed = parseUnit(unit);
  return parsed.ok && (name === 'any' || sameDimension(parsed.unit.dimension, dimensionOf(name)));
};

/** Whether a piece of text is certainly one of the things accepted, told from its form and the names alone. */
function fits(node: Operand, accept: Accept, context: FitContext): boolean {
  const { vocabulary, bound, text } = context;
  switch (accept.type) {
    case 'value':
      if (node.type === 'word') return bound(node.text);
      if (node.type === 'number') return accept.kinds.includes('quantity');
      if (node.type === 'text') return accept.kinds.includes('text');
      return computed.has(node.type);
    case 'quantity':
      if (node.type === 'number') return hasDimension(node.unit?.text ?? '', accept.dimension);
      return node.type === 'word' ? bound(node.text) : computed.has(node.type);
    case 'number':
    case 'integer':
      if (node.type === 'number') return node.unit === undefined;
      return node.type === 'word' ? bound(node.text) : computed.has(node.type);
    case 'range':
      return node.type === 'range';
    case 'text':
      return node.type === 'text';
    case 'word':
      return node.type === 'word' && accept.words.includes(node.text);
    case 'channel':
      return node.type === 'word' || node.type === 'text' || (node.type === 'assigned' && accept.assigned === true);
    case 'unit':
      return ['word', 'unit', 'binary'].includes(node.type) && isUnit(sliceOf(text, node));
    case 'step':
      return node.type === 'word' && inPlace(accept, node.text, vocabulary) !== undefined && !bound(node.text);
  }
}

/** Whether a piece may have been meant for this place, so that the trouble can name what was wanted. */
function resembles(node: Operand, accept: Accept): boolean {
  switch (accept.type) {
    case 'value':
      return (
        node.type === 'word' ||
        node.type === 'number' ||
        node.type === 'text' ||
        node.type === 'range' ||
        computed.has(node.type)
      );
    case 'quantity':
    case 'number':
    case 'integer':
      return (
        node.type === 'number' ||
        node.type === 'word' ||
        node.type === 'range' ||
        node.type === 'unit' ||
        computed.has(node.type)
      );
    case 'range':
      return node.type === 'number' || node.type === 'range' || computed.has(node.type);
    case 'text':
      return ['text', 'word', 'binary', 'field', 'pick'].includes(node.type);
    case 'word':
    case 'channel':
    case 'unit':
    case 'step':
      return node.type === 'word' || node.type === 'text' || node.type === 'unit' || node.type === 'number';
  }
}

/** The accept that fits, else the first that the piece resembles. */
export function choose(
  node: Operand,
  accepts: readonly Accept[],
  context: FitContext,
): { accept: Accept; sure: boolean } | undefined {
  const sure = accepts.find((accept) => fits(node, accept, context));
  if (sure) return { accept: sure, sure: true };
  const loose = accepts.find((accept) => resembles(node, accept));
  return loose && { accept: loose, sure: false };
}

/**
 * Whether a free word may not be taken for an operand that may be left out: only where a word of the next operand follows
 * does it stand for one; else it is sooner that word, misspelt.
 *
 * @param operands the one in question and those after it
 */
export function isTooFree(
  node: Operand,
  next: Operand | undefined,
  [operand, ...later]: readonly OperandForm[],
): boolean {
  if (operand.optional !== true || node.type !== 'word') return false;
  const isWordOf = (word: string, some: readonly OperandForm[]): boolean =>
    some.some(({ accepts }) => accepts.some((one) => one.type === 'word' && one.words.includes(word)));
  return isWordOf(node.text, later) || next?.type !== 'word' || !isWordOf(next.text, later.slice(0, 1));
}
