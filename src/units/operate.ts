import { add, divide, multiply, power, subtract } from './arithmetic.ts';
import { isDimensionless } from './dimension.ts';
import type { Quantity } from './unit.ts';

export type Operator = '+' | '-' | '*' | '/' | '^';

/** Why there is no result: unlike dimensions, a level that met a unit, an exponent with a unit, a zero or a huge number. */
export type Refusal = 'dimension' | 'level' | 'exponent' | 'zero' | 'finite';

export type Operated =
  { readonly ok: true; readonly quantity: Quantity } | { readonly ok: false; readonly reason: Refusal };

const refuse = (reason: Refusal): Operated => ({ ok: false, reason });

/**
 * Arithmetic of the language. A sum is in the unit of its first term. A level in dB adds only to a level, and is
 * multiplied or divided by plain numbers only: everything else would mix a logarithm with a size silently.
 */
export function operate(operator: Operator, a: Quantity, b: Quantity): Operated {
  if (operator === '+' || operator === '-') {
    const sum = operator === '+' ? add(a, b) : subtract(a, b);
    return sum ? finite(sum) : refuse('dimension');
  }
  if (operator === '^') {
    if (!isDimensionless(b.unit.dimension)) return refuse('exponent');
    if (a.unit.dimension.level !== 0) return refuse('level');
    return finite(power(a, b.value * b.unit.factor));
  }
  if (!levelsAgree(a, b, operator)) return refuse('level');
  if (operator === '/' && b.value === 0) return refuse('zero');
  return finite(operator === '*' ? multiply(a, b) : divide(a, b));
}

function levelsAgree(a: Quantity, b: Quantity, operator: '*' | '/'): boolean {
  const plain = ({ unit }: Quantity): boolean => unit.symbol === '';
  const level = ({ unit }: Quantity): boolean => unit.dimension.level !== 0;
  if (level(a)) return plain(b) || (operator === '/' && level(b));
  return !level(b) || (operator === '*' && plain(a));
}

const finite = (quantity: Quantity): Operated =>
  Number.isFinite(quantity.value) ? { ok: true, quantity } : refuse('finite');
