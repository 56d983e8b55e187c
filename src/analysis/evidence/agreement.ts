import { success, type Result } from '../../result/result.ts';
import { effectiveDf, standardUncertainty } from '../../units/uncertainty.ts';
import type { QuantityValue } from '../../values/quantity.ts';
import type { AgreementValue } from '../../values/agreement.ts';
import { refuse, tell } from '../messages/agreement.ts';
import { operatedWith, withCoverage } from '../uncertainty.ts';

/** A quantity and what it is called. */
export interface NamedQuantity {
  readonly name: string;
  readonly value: QuantityValue;
}

/**
 * Whether two quantities of one unit agree: whether their difference, with the standard uncertainty that is left of both once
 * what they share is taken out, lies within its expanded uncertainty. The degree of equivalence is |d|/U. Refused where both are
 * exact, and where the uncertainty of one is not known.
 * @param confidence 0 to 1
 */
export function agreementOf(a: NamedQuantity, b: NamedQuantity, confidence: number): Result<AgreementValue> {
  if (a.value.parts === undefined && b.value.parts === undefined) return refuse('agrees.exact', {}, 'a');
  for (const [side, at] of [
    [a, 'a'],
    [b, 'b'],
  ] as const) {
    const known = side.value.parts === undefined || Number.isFinite(standardUncertainty(side.value.parts));
    if (!known) return refuse('agrees.unknown', { name: side.name }, at);
  }
  const { unit } = a.value.quantity;
  const quantity = { value: a.value.quantity.value - b.value.quantity.value, unit };
  const difference = withCoverage(operatedWith('-', a.value, b.value, quantity), confidence);
  const parts = difference.parts ?? [];
  const uncertainty = standardUncertainty(parts);
  const { factor } = difference.coverage!;
  const df = effectiveDf(parts);
  const expanded = factor * uncertainty;
  const agrees = Math.abs(quantity.value) <= expanded;
  const facts = {
    a: { name: a.name, ...a.value },
    b: { name: b.name, ...b.value },
    difference: { quantity, parts },
    ...{ expanded: { value: expanded, unit }, confidence, factor, df },
  };
  return success({
    kind: 'agreement',
    agrees,
    unit,
    a: sideOf(a),
    b: sideOf(b),
    difference: quantity.value,
    ...{ uncertainty, df, confidence, factor },
    sentence: tell(agrees ? 'result.agrees' : 'result.disagrees', facts).message,
  });
}

const sideOf = ({ name, value: { quantity, parts } }: NamedQuantity): AgreementValue['a'] => ({
  name,
  value: quantity.value,
  uncertainty: parts && standardUncertainty(parts),
});
