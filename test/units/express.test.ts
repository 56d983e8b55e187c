import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { divide, inSI, multiply, power, quantity as q, root } from '../../src/units/arithmetic.ts';
import { canExpress, express } from '../../src/units/express.ts';
import { formatQuantity } from '../../src/units/format.ts';
import { operate } from '../../src/units/operate.ts';
import { unit } from '../../src/units/parse.ts';
import type { Quantity } from '../../src/units/unit.ts';

const shown = (value: Quantity | undefined): string => (value === undefined ? 'none' : formatQuantity(value, 6));
const close = (a: number, b: number): void => assert.ok(Math.abs(a - b) <= 1e-12 * Math.abs(b), `${a} is not ${b}`);
const pi = q(Math.PI, 'rad');
const sizes = fc.double({ min: 1e-3, max: 1e4, noNaN: true });

const done = (operator: '*' | '/', a: Quantity, b: Quantity): Quantity => {
  const found = operate(operator, a, b);
  return found.ok ? found.quantity : assert.fail(found.reason);
};

describe('express', () => {
  it('turns rpm into Hz by 60 and into rad/s by 2 pi / 60', () => {
    assert.equal(shown(express(q(3000, 'rpm'), unit('Hz'))), '50 Hz');
    assert.equal(shown(express(q(3000, 'rpm'), unit('rad/s'))), '314.159 rad/s');
    assert.equal(shown(express(q(314.159265358979, 'rad/s'), unit('rpm'))), '3000 rpm');
    assert.equal(shown(express(q(1, 'Hz'), unit('rad/s'))), '6.28319 rad/s');
    assert.equal(shown(express(q(1, 'Hz^2'), unit('rad^2/s^2'))), '39.4784 rad^2/s^2');
  });

  it('lets the radian go where nothing turns', () => {
    assert.equal(shown(express(q(2, 'rad'), unit(''))), '2');
    assert.equal(shown(express(q(200, '%'), unit('rad'))), '2 rad');
    assert.equal(shown(express(q(0.25, 's/rad'), unit('ms'))), '250 ms');
    assert.equal(shown(express(divide(q(40, 'N/m'), q(10, 'kg')), unit('rad^2/s^2'))), '4 rad^2/s^2');
  });

  it('has no answer for rad/s in 1/s, which may count radians or turns, nor between unlike dimensions', () => {
    assert.equal(express(q(1, 'rad/s'), unit('1/s')), undefined);
    assert.equal(express(q(1, 'rad'), unit('s')), undefined);
    assert.equal(express(q(1, 'rad^2/s'), unit('Hz')), undefined);
    assert.ok(!canExpress(unit('rad/s').dimension, unit('1/s')) && canExpress(unit('rad/s').dimension, unit('Hz')));
  });

  it('there and back again is where it was', () => {
    fc.assert(
      fc.property(fc.constantFrom('rpm', 'Hz', 'kHz'), fc.constantFrom('rad/s', 'rad/min'), sizes, (a, b, value) => {
        const there = express(q(value, a), unit(b))!;
        close(there.value, (inSI(q(value, a)) * 2 * Math.PI) / unit(b).factor);
        close(express(there, unit(a))!.value, value);
      }),
    );
  });
});

describe('arithmetic with the radian', () => {
  it('gives the same frequency whichever way sqrt(k/m) is divided by 2 pi', () => {
    fc.assert(
      fc.property(sizes, sizes, (k, m) => {
        const omega = root(divide(q(k, 'N/mm'), q(m, 'kg')));
        const hertz = Math.sqrt((1000 * k) / m) / (2 * Math.PI);
        const ways = [
          done('/', omega, done('*', q(2, ''), pi)),
          done('/', done('/', omega, q(2, '')), pi),
          done('/', omega, q(2 * Math.PI, '')),
          express(omega, unit('Hz'))!,
        ];
        for (const way of ways) {
          assert.equal(way.unit.symbol, 'Hz');
          close(way.value, hertz);
          close(express(way, unit('Hz'))!.value, hertz);
        }
      }),
    );
  });

  it('takes 6.28 for 2 pi beside a rate, and for a number elsewhere', () => {
    assert.equal(shown(done('/', q(62.8, 'rad/s'), q(6.28, ''))), '10 Hz');
    assert.equal(shown(done('*', q(6.28, ''), q(10, 'Hz'))), '62.8 rad/s');
    assert.equal(shown(done('*', q(3000, 'rpm'), done('*', q(2, ''), pi))), '314.159 rad/s');
    assert.equal(shown(done('/', q(62.8, 'Hz'), q(6.28, ''))), '10 Hz');
    assert.equal(shown(done('/', q(62.8, 'rad/s'), q(3, ''))), '20.9333 rad/s');
  });

  it('leaves no radian beside a length or a mass: v = ω x, k = m ω^2, and so on', () => {
    const omega = done('*', done('*', q(2, ''), pi), q(5, 'Hz'));
    const w = 10 * Math.PI;
    assert.equal(shown(express(done('*', omega, q(3, 'mm')), unit('mm/s'))), shown(q(3 * w, 'mm/s')));
    assert.equal(shown(express(done('*', q(2, 'kg'), power(omega, 2)), unit('N/m'))), shown(q(2 * w * w, 'N/m')));
    assert.equal(
      shown(express(done('*', power(omega, 2), q(1, 'mm')), unit('m/s^2'))),
      shown(q(w * w * 1e-3, 'm/s^2')),
    );
    assert.equal(shown(express(done('/', q(2 * w * w, 'N/m'), power(omega, 2)), unit('kg'))), '2 kg');
    assert.equal(shown(done('/', done('*', pi, power(q(2, 'm'), 2)), q(4, ''))), '3.14159 m^2');
    assert.equal(shown(done('/', omega, omega)), '1');
    assert.equal(shown(done('/', done('*', q(2, ''), pi), omega)), '0.2 s');
    assert.equal(shown(multiply(omega, q(2, 's'))), shown(q(2 * w, 'rad')));
  });
});
