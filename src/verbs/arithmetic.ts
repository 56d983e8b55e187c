import { operatedWith, statedSize, timesWith, withCoverage, withInput } from '../analysis/uncertainty.ts';
import { success, type Result } from '../result/result.ts';
import { negate as negated } from '../units/arithmetic.ts';
import { express } from '../units/express.ts';
import { operate, type Operator } from '../units/operate.ts';
import type { UncertaintyPart } from '../units/uncertainty.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import type { QuantityValue } from '../values/quantity.ts';
import { refuse } from './messages.ts';

/** Arithmetic of the language's expressions, uncertainties and all. */
export function arithmetic(operator: Operator, left: QuantityValue, right: QuantityValue): Result<QuantityValue> {
  const found = operate(operator, left.quantity, right.quantity);
  if (found.ok) return success(operatedWith(operator, left, right, found.quantity));
  const [a, b] = [left, right].map(({ quantity }) => quantity.unit.dimension);
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

export const negate = (of: QuantityValue): Result<QuantityValue> => success(timesWith(of, negated(of.quantity), -1));

/** The quantity in another unit; a level in dB is converted to nothing else. */
export function convertQuantity(of: QuantityValue, to: Unit): Result<QuantityValue> {
  const found = express(of.quantity, to);
  const one = express({ value: 1, unit: of.quantity.unit }, to);
  if (found === undefined || one === undefined)
    return refuse('unit.dimension', { to, from: of.quantity.unit.dimension });
  const value = timesWith(of, found, one.value);
  return success(of.coverage === undefined ? value : { ...value, coverage: of.coverage });
}

/** A quantity with a stated standard uncertainty, as an input of its own. */
export function uncertain(
  of: QuantityValue,
  by: Quantity,
  { input, df }: Pick<UncertaintyPart, 'input' | 'df'>,
): Result<QuantityValue> {
  const size = statedSize(of.quantity, by);
  if (size === undefined)
    return refuse('unit.dimension', { operator: '+', left: of.quantity.unit.dimension, right: by.unit.dimension });
  return success(withInput(of, { input, size, df }));
}

/** A quantity with its expanded uncertainty; refused of an exact one. @param level 0 to 1 */
export const covered = (of: QuantityValue, level: number): Result<QuantityValue> =>
  of.parts === undefined ? refuse('coverage.exact', {}) : success(withCoverage(of, level));
