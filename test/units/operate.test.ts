import { strict as assert } from 'node:assert';
import { quantity as q } from '../../src/units/arithmetic.ts';
import { formatQuantity } from '../../src/units/format.ts';
import { operate, type Operator } from '../../src/units/operate.ts';
import type { Quantity } from '../../src/units/unit.ts';

const shown = (value: Quantity): string => formatQuantity(value, 6);

describe('operate', () => {
  const reason = (operator: Operator, a: Quantity, b: Quantity): string => {
    const done = operate(operator, a, b);
    return done.ok ? shown(done.quantity) : done.reason;
  };
  it('adds in the unit of the first term, and only what measures the same', () => {
    assert.equal(reason('+', q(1, 'm'), q(20, 'cm')), '1.2 m');
    assert.equal(reason('-', q(1, 'm'), q(20, 'cm')), '0.8 m');
    assert.equal(reason('+', q(1, 'g'), q(20, 'kg')), 'dimension');
    assert.equal(reason('-', q(1, 'g'), q(20, 'kg')), 'dimension');
  });
  it('lets a level meet levels and plain numbers only', () => {
    assert.equal(reason('+', q(3, 'dB'), q(3, 'dB')), '6 dB');
    assert.equal(reason('*', q(3, 'dB'), q(2, '')), '6 dB');
    assert.equal(reason('+', q(3, 'dB'), q(3, '%')), 'dimension');
    assert.equal(reason('*', q(3, 'dB'), q(3, '%')), 'level');
    assert.equal(reason('*', q(3, 'dB'), q(3, 'N')), 'level');
    assert.equal(reason('/', q(3, 'N'), q(3, 'dB')), 'level');
    assert.equal(reason('*', q(2, ''), q(3, 'dB')), '6 dB');
    assert.equal(reason('/', q(2, ''), q(3, 'dB')), 'level');
    assert.equal(reason('/', q(6, 'dB'), q(3, 'dB')), '2');
    assert.equal(reason('*', q(6, 'dB'), q(3, 'dB')), 'level');
    assert.equal(reason('/', q(6, 'dB'), q(2, '')), '3 dB');
    assert.equal(reason('^', q(3, 'dB'), q(2, '')), 'level');
  });
  it('refuses a zero below the line, a number too large and an exponent with a unit', () => {
    assert.equal(reason('/', q(3, 'N'), q(0, 'm')), 'zero');
    assert.equal(reason('^', q(1e200, ''), q(2, '')), 'finite');
    assert.equal(reason('^', q(3, 'N'), q(2, 'm')), 'exponent');
    assert.equal(reason('/', q(0, 'N'), q(2, 'm')), '0 N/m');
    assert.equal(reason('+', q(1.7e308, 'N'), q(1.7e308, 'N')), 'finite');
  });
  it('multiplies, divides and raises the units too, with a percentage as a fraction in an exponent', () => {
    assert.equal(reason('*', q(3, 'N'), q(2, 'm')), '6 N*m');
    assert.equal(reason('/', q(3, 'N'), q(2, 'm')), '1.5 N/m');
    assert.equal(reason('^', q(3, 'm'), q(2, '')), '9 m^2');
    assert.equal(reason('^', q(9, ''), q(50, '%')), '3');
  });
});
