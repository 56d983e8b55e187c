import { success, type Result } from '../result/result.ts';
import { negate as negated } from '../units/arithmetic.ts';
import { express } from '../units/express.ts';
import { operate, type Operator } from '../units/operate.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import type { QuantityValue } from '../values/quantity.ts';
import { refuse } from './messages.ts';

const value = (quantity: Quantity): Result<QuantityValue> => success({ kind: 'quantity', quantity });

/** Arithmetic of the language's expressions. */
export function arithmetic(operator: Operator, left: Quantity, right: Quantity): Result<QuantityValue> {
  const found = operate(operator, left, right);
  if (found.ok) return value(found.quantity);
  const [a, b] = [left, right].map(({ unit }) => unit.dimension);
  switch (found.reason) {
    case 'dimension':
      return refuse('unit.dimension', { operator, left: a, right: b });
    case 'level':
      return refuse('unit.level', {});
    case 'exponent':
      return refuse('unit.exponent', { dimension: b });
    case 'zero':
      return refuse('arithmetic.zero', {});
    case 'finite':
      return refuse('arithmetic.finite', {});
  }
}

export const negate = (of: Quantity): Result<QuantityValue> => value(negated(of));

/** The quantity in another unit; a level in dB is converted to nothing else. */
export function convertQuantity(of: Quantity, to: Unit): Result<QuantityValue> {
  const found = express(of, to);
  return found === undefined ? refuse('unit.dimension', { to, from: of.unit.dimension }) : value(found);
}
