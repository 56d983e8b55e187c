import { messages } from '../../result/messages.ts';
import type { Quantity } from '../../units/unit.ts';
import type { UncertaintyParts } from '../../units/uncertainty.ts';
import { fixed, plain } from '../../values/number.ts';
import { quantityText } from '../../values/uncertainText.ts';

/** A quantity as it is told, with what it is called. */
export interface ToldQuantity {
  readonly name: string;
  readonly quantity: Quantity;
  readonly parts?: UncertaintyParts;
}

export interface ToldAgreement {
  readonly a: ToldQuantity;
  readonly b: ToldQuantity;
  /** With its standard uncertainty. */
  readonly difference: Omit<ToldQuantity, 'name'>;
  /** The expanded uncertainty of the difference. */
  readonly expanded: Quantity;
  readonly confidence: number;
  readonly factor: number;
  readonly df: number;
}

export interface AgreementFacts {
  'agrees.exact': object;
  'agrees.unknown': { readonly name: string };
  'result.agrees': ToldAgreement;
  'result.disagrees': ToldAgreement;
}

const quantityWords = ({ name, quantity, parts }: ToldQuantity): string =>
  `${name}, ${quantityText({ quantity, ...(parts === undefined ? {} : { parts }) })}${parts === undefined ? ' exactly' : ''}`;

function interval({ difference: { quantity }, expanded, confidence, factor, df }: ToldAgreement): string {
  const { value, unit } = quantity;
  const ends = [value - expanded.value, value + expanded.value].map((end) => plain(end, 3)).join(' to ');
  const freedom = Number.isFinite(df) ? `, ${plain(df, 3)} degrees of freedom` : '';
  return `${ends}${unit.symbol === '' ? '' : ` ${unit.symbol}`} (${plain(100 * confidence, 4)} %, k = ${fixed(factor, 2)}${freedom})`;
}

const degree = ({ difference, expanded }: ToldAgreement): string =>
  plain(Math.abs(difference.quantity.value) / expanded.value, 2);

const apart = ({ difference }: ToldAgreement): string => `their difference is ${quantityText(difference)}`;

export const { tell, refuse } = messages<AgreementFacts>({
  'agrees.exact': () =>
    'Two exact quantities are equal or they are not: agrees needs the uncertainty of one of them, as in "160 ± 5 N/mm".',
  'agrees.unknown': ({ name }) =>
    `The uncertainty of ${name} is not known, since its runs, or the order in which they were made, allow no inference: whether it agrees can't be said.`,
  'result.agrees': (facts) =>
    `${quantityWords(facts.a)}, and ${quantityWords(facts.b)}, agree: ${apart(facts)}, and its interval ${interval(facts)} holds 0; the degree of equivalence |d|/U is ${degree(facts)}. Differences of less than ${quantityText({ quantity: facts.expanded }, 2)} can't be seen by these.`,
  'result.disagrees': (facts) =>
    `${quantityWords(facts.a)}, and ${quantityWords(facts.b)}, do not agree: ${apart(facts)}, and its interval ${interval(facts)} leaves 0 out; the degree of equivalence |d|/U is ${degree(facts)}.`,
});
