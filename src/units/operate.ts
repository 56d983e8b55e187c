import { add, divide, multiply, power, subtract } from './arithmetic.ts';
import { dimensionOf, isNumber, sameDimension } from './dimension.ts';
import { unit } from './parse.ts';
import type { Dimension, Quantity } from './unit.ts';

export type Operator = '+' | '-' | '*' | '/' | '^';

/** Why there is no result: unlike dimensions, a level that met a unit, an exponent with a unit, a zero or a huge number. */
export type Refusal = 'dimension' | 'level' | 'exponent' | 'zero' | 'finite';

export type Operated =
  { readonly ok: true; readonly quantity: Quantity } | { readonly ok: false; readonly reason: Refusal };

const refuse = (reason: Refusal): Operated => ({ ok: false, reason });

/**
 * Arithmetic of the language. A sum is in the unit of its first term. A level in dB adds only to a level, and is
 * multiplied or divided by plain numbers only: everything else would mix a logarithm with a size silently. A number that is 2 pi as people write it, 6.28 or 6.2832,
 * is one turn in rad where it meets a frequency or divides an angular velocity, as `2 * pi` is by itself.
 */
export function operate(operator: Operator, given: Quantity, by: Quantity): Operated {
  const [a, b] = withTurn(operator, part(given), part(by)).map(({ constant }) => constant!);
  if (operator === '+' || operator === '-') {
    const sum = operator === '+' ? add(a, b) : subtract(a, b);
    return sum ? finite(sum) : refuse('dimension');
  }
  if (operator === '^') {
    if (!isNumber(b.unit.dimension)) return refuse('exponent');
    if (a.unit.dimension.level !== 0) return refuse('level');
    return finite(power(a, b.value * b.unit.factor));
  }
  if (!levelsAgree(a, b, operator)) return refuse('level');
  if (operator === '/' && b.value === 0) return refuse('zero');
  return finite(operator === '*' ? multiply(a, b) : divide(a, b));
}

/** What is known of a quantity before it is computed. */
interface Part {
  readonly dimension: Dimension;
  readonly constant: Quantity | undefined;
}

const radian = unit('rad');

const part = (of: Quantity): Part => ({ dimension: of.unit.dimension, constant: of });

/** The two of a product or quotient, with a number that is 2 pi in rad where it meets a rate. */
export function withTurn(operator: Operator, a: Part, b: Part): readonly [Part, Part] {
  const isTurn = ({ constant }: Part): boolean =>
    constant?.unit.symbol === '' && Math.abs(constant.value / (2 * Math.PI) - 1) < 1e-3;
  const measures = ({ dimension }: Part, name: 'frequency' | 'angular velocity'): boolean =>
    sameDimension(dimension, dimensionOf(name));
  const turn = ({ constant }: Part): Part => ({
    dimension: radian.dimension,
    constant: constant && { ...constant, unit: radian },
  });
  if (operator === '*' && isTurn(a) && measures(b, 'frequency')) return [turn(a), b];
  const meets = operator === '*' ? 'frequency' : operator === '/' ? 'angular velocity' : undefined;
  return meets !== undefined && isTurn(b) && measures(a, meets) ? [a, turn(b)] : [a, b];
}

function levelsAgree(a: Quantity, b: Quantity, operator: '*' | '/'): boolean {
  const plain = ({ unit }: Quantity): boolean => unit.symbol === '';
  const level = ({ unit }: Quantity): boolean => unit.dimension.level !== 0;
  if (level(a)) return plain(b) || (operator === '/' && level(b));
  return !level(b) || (operator === '*' && plain(a));
}

const finite = (quantity: Quantity): Operated =>
  Number.isFinite(quantity.value) ? { ok: true, quantity } : refuse('finite');
