import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { convert, divide, inSI, multiply, power, quantity, root } from '../../src/units/arithmetic.ts';
import { atomSymbols } from '../../src/units/atoms.ts';
import { formatQuantity } from '../../src/units/format.ts';
import { unit } from '../../src/units/parse.ts';
import type { Quantity } from '../../src/units/unit.ts';

const close = (a: number, b: number, relative = 1e-9): void =>
  assert.ok(Math.abs(a - b) <= relative * Math.abs(b), `${a} is not ${b}`);
const q = quantity;
const shown = (value: Quantity): string => formatQuantity(value, 6);

describe('convert', () => {
  it('agrees with the values of the standards', () => {
    // ISO 80000-3 and -4; NIST SP 811, appendix B.8.
    const cases: readonly (readonly [number, string, number, string])[] = [
      [1, 'g', 9.80665, 'm/s^2'],
      [1, 'kgf', 9.80665, 'N'],
      [1, 'lbf', 4.4482216152605, 'N'],
      [1, 'lbf/in', 0.175126835, 'N/mm'],
      [1, 'kgf/mm', 9.80665, 'N/mm'],
      [1, 'psi', 6894.757293168, 'Pa'],
      [1, 'bar', 14.503773773, 'psi'],
      [1, 'mph', 0.44704, 'm/s'],
      [3.6, 'km/h', 1, 'm/s'],
      [60, 'rpm', 1, 'Hz'],
      [1, 'Gal', 0.01, 'm/s^2'],
      [15, '%', 0.15, ''],
      [60, 's', 1, 'min'],
      [1, 'g^2/Hz', 96.1703842, '(m/s^2)^2/Hz'],
    ];
    for (const [value, from, expected, to] of cases) close(convert(q(value, from), unit(to))!.value, expected, 1e-8);
  });

  it('has no answer between unlike dimensions', () => {
    assert.equal(convert(q(1, 'g'), unit('kg')), undefined);
    assert.equal(convert(q(3, 'dB'), unit('%')), undefined);
    assert.equal(convert(q(1, 'counts'), unit('')), undefined);
  });

  it('there and back again is where it was', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...atomSymbols),
        fc.constantFrom(...atomSymbols),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        (a, b, value) => {
          const there = convert(q(value, a), unit(b));
          if (there) close(convert(there, unit(a))!.value, value, 1e-12);
        },
      ),
    );
  });
});

describe('arithmetic with units', () => {
  it('cancels what measures the same, in the unit that stands first', () => {
    assert.equal(shown(multiply(q(40, 'N/mm'), q(2, 'mm'))), '80 N');
    assert.equal(shown(multiply(q(40, 'N/mm'), q(1, 'm'))), '40000 N');
    assert.equal(shown(multiply(q(2, 'Hz'), q(3, 's'))), '6');
    assert.equal(shown(divide(q(10, 'km/h'), q(2, 'km/h'))), '5');
    assert.equal(shown(divide(q(1, ''), q(4, 's'))), '0.25 Hz');
    assert.equal(shown(divide(q(9, 'km/h'), q(2.5, 'm'))), '1 Hz');
  });

  it('takes the SI name where it is shorter', () => {
    assert.equal(shown(multiply(q(2, 'kg'), q(3, 'm/s^2'))), '6 N');
    assert.equal(shown(multiply(q(2, 'kg'), q(1, 'g'))), '19.6133 N');
    assert.equal(shown(divide(q(10, 'N'), q(2, 'mm'))), '5 N/mm');
    assert.equal(shown(divide(q(10, 'N'), q(2, 'mm^2'))), '5000000 Pa');
  });

  it('takes roots: a stiffness over a mass gives an angular velocity, a frequency squared a frequency', () => {
    const omega = root(divide(q(40, 'N/mm'), q(80, 'kg')));
    assert.equal(omega.unit.symbol, 'rad/s');
    assert.equal(shown(power(divide(q(9.81, 'm/s^2'), q(9.81, 'mm')), 0.5)), '31.6228 rad/s');
    assert.equal(shown(root(multiply(q(4, 'Hz'), q(9, 'Hz')))), '6 Hz');
    close(omega.value, Math.sqrt(40000 / 80));
    assert.equal(shown(power(q(5, 's'), 2)), '25 s^2');
    assert.equal(shown(root(q(25, 's^2'))), '5 s');
  });

  it('keeps a percentage beside a plain number and folds it beside anything else', () => {
    assert.equal(shown(multiply(q(50, '%'), q(2, ''))), '100 %');
    assert.equal(shown(multiply(q(50, '%'), q(40, 'N'))), '20 N');
    assert.equal(shown(multiply(q(50, '%'), q(50, '%'))), '0.25');
  });

  it('agrees with plain arithmetic in SI units', () => {
    const any = fc.tuple(
      fc.double({ min: 0.1, max: 100, noNaN: true }),
      fc.constantFrom(...atomSymbols.filter((symbol) => symbol !== 'dB')),
    );
    fc.assert(
      fc.property(any, any, ([a, ua], [b, ub]) => {
        close(inSI(multiply(q(a, ua), q(b, ub))), inSI(q(a, ua)) * inSI(q(b, ub)), 1e-11);
        close(inSI(divide(q(a, ua), q(b, ub))), inSI(q(a, ua)) / inSI(q(b, ub)), 1e-11);
        close(inSI(root(q(a, ua))), Math.sqrt(inSI(q(a, ua))), 1e-11);
      }),
    );
  });
});
