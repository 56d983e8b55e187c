import { answer, operand, type Argument, type Verb } from '../verb.ts';
import { tabulatedKinds } from '../../values/kinds.ts';
import { decibelsOption, noLevels, levelReferenceIn, referenceOption } from './levelScale.ts';
import { tabulate, tabulateLevels } from '../../values/tabulate.ts';
import type { Value } from '../../values/value.ts';

export const table: Verb = {
  takesLong: true,
  needsNoSamples: true,
  form: {
    verb: 'table',
    summary: 'Gives the numbers behind a value as a table.',
    help: 'Every figure with its unit, one row a run, band or bin.',
    operands: [
      {
        name: 'value',
        doc: 'What to tabulate.',
        accepts: [{ type: 'value', kinds: tabulatedKinds }],
      },
    ],
    options: [decibelsOption, referenceOption],
    gives: 'table',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ntable (band (spectrum foam) 4..10 Hz, 10..50 Hz)',
    ],
  },
  evaluate(given) {
    const value = shownIn(operand(given, 'value'));
    const reference = levelReferenceIn(given);
    if (!reference.ok) return reference;
    if (reference.value !== undefined) {
      const levels = tabulateLevels(value, reference.value);
      return levels === undefined ? noLevels(reference.value, 'value') : answer(levels);
    }
    const table = tabulate(value);
    if (table === undefined) throw new Error('the form takes no value without a table');
    return answer(table);
  },
};

/** A quantity stands among the arguments without its kind. */
function shownIn(argument: Argument | undefined): Value {
  if (argument?.type === 'value') return argument.value;
  if (argument?.type === 'quantity')
    return {
      kind: 'quantity',
      quantity: argument.quantity,
      ...(argument.parts === undefined ? {} : { parts: argument.parts }),
    };
  throw new Error('the form takes a value');
}
