import { convert, negate as negated } from '../units/arithmetic.ts';
import { describeDimension } from '../units/dimension.ts';
import { operate, type Operator } from '../units/operate.ts';
import type { Quantity, Unit } from '../units/unit.ts';
import { answer, type Answer } from './verb.ts';
import { refuse } from '../result/result.ts';

const value = (quantity: Quantity): Answer => answer({ kind: 'quantity', quantity });

const joined: Record<Operator, string> = {
  '+': 'added to',
  '-': 'subtracted from',
  '*': 'multiplied by',
  '/': 'divided by',
  '^': 'raised to',
};

/** Arithmetic of the language's expressions. */
export function arithmetic(operator: Operator, left: Quantity, right: Quantity): Answer {
  const found = operate(operator, left, right);
  if (found.ok) return value(found.quantity);
  const [a, b] = [left, right].map(({ unit }) => describeDimension(unit.dimension));
  switch (found.reason) {
    case 'dimension':
      return operator === '-'
        ? refuse('unit.dimension', `${capital(b)} can't be subtracted from ${a}: only like quantities add up.`)
        : refuse(
            'unit.dimension',
            `${capital(a)} and ${b} can't be ${joined[operator]} each other: only like quantities add up.`,
          );
    case 'level':
      return refuse(
        'unit.level',
        'A level in dB adds only to a level: turn it into a ratio first, or multiply it by a plain number.',
      );
    case 'exponent':
      return refuse('unit.exponent', `An exponent is a plain number, and this is ${b}.`);
    case 'zero':
      return refuse('arithmetic.zero', 'This divides by zero.');
    case 'finite':
      return refuse('arithmetic.finite', 'The result is no finite number.');
  }
}

export const negate = (of: Quantity): Answer => value(negated(of));

/** The quantity in another unit; a level in dB is converted to nothing else. */
export function convertQuantity(of: Quantity, to: Unit): Answer {
  const found = convert(of, to);
  if (found !== undefined) return value(found);
  return refuse(
    'unit.dimension',
    `${capital(describeDimension(of.unit.dimension))} can't be given in ${to.symbol === '' ? 'plain numbers' : to.symbol}, which is for ${describeDimension(to.dimension)}.`,
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
