import { agreementOf, type NamedQuantity } from '../../analysis/evidence/agreement.ts';
import type { Accept } from '../../language/form.ts';
import { convertQuantity } from '../arithmetic.ts';
import { answerOf, operand, siOf, type Argument, type Verb } from '../verb.ts';

const any: readonly Accept[] = [{ type: 'quantity', dimension: 'any', signed: true }];

export const agrees: Verb = {
  needsNoSamples: true,
  form: {
    verb: 'agrees',
    summary: 'Says whether a predicted and a measured quantity agree within their uncertainties.',
    help: 'The difference of both with its standard uncertainty, which inputs that both share do not widen (JCGM 100:2008, 5.1.2 and F.1.2.3); its expanded uncertainty U, with k from Student’s t at the effective degrees of freedom (G.4); and the degree of equivalence |d|/U, which is at most 1 where they agree. A field of a comparison, such as `C.change`, brings the standard error and the degrees of freedom of its row; one without an inference is refused, for then nobody knows. That two agree is no proof of the prediction: the wider the uncertainties, the more agrees.',
    operands: [
      { name: 'a', doc: 'What was predicted.', accepts: any },
      { name: 'b', doc: 'What was measured.', accepts: any, keyword: 'with' },
    ],
    options: [
      {
        keyword: 'coverage',
        doc: 'Of the interval of the difference.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.5, most: 0.9999 }],
        default: '95 %',
      },
    ],
    gives: 'agreement',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\nC = compare foam with gel over 10..50 Hz\npredicted = -20 ± 4 %\nagrees predicted with C.change',
    ],
  },
  evaluate(given) {
    const a = named(operand(given, 'a'), 'the predicted value');
    const b = named(operand(given, 'b'), 'the measured value');
    const same = convertQuantity(b.value, a.value.quantity.unit);
    if (!same.ok) return same;
    return answerOf(agreementOf(a, { name: b.name, value: same.value }, siOf(given, 'coverage') ?? 0.95));
  },
};

/** @param otherwise what it is called that has no name */
function named(argument: Argument | undefined, otherwise: string): NamedQuantity {
  if (argument?.type !== 'quantity') throw new Error('the form takes quantities');
  const { quantity, parts, name } = argument;
  const value = { kind: 'quantity' as const, quantity, ...(parts === undefined ? {} : { parts }) };
  return { name: name ?? otherwise, value };
}
