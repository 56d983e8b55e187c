import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { quantity } from '../../src/units/arithmetic.ts';
import { densityUnit, unit } from '../../src/units/parse.ts';
import { decibelsOf, iso1683, levelIn } from '../../src/values/decibels.ts';

const levelOf = (value: number, symbol: string, reference = iso1683): number | undefined => {
  const scale = decibelsOf(unit(symbol), reference);
  return scale && levelIn(scale, value);
};

const near = (actual: number | undefined, expected: number): void =>
  assert.ok(actual !== undefined && Math.abs(actual - expected) < 1e-9, `${actual} is not ${expected}`);

describe('decibelsOf', () => {
  it('takes the preferred reference values of ISO 1683:2015: 1 µm/s², 1 nm/s, 1 pm, 1 µN', () => {
    near(levelOf(1, 'm/s^2'), 120);
    near(levelOf(1, 'mm/s'), 120);
    near(levelOf(1, 'µm'), 120);
    near(levelOf(1, 'N'), 120);
    near(levelOf(1, 'g'), 20 * Math.log10(9.80665e6));
    assert.equal(decibelsOf(unit('g'), iso1683)?.symbol, 'dB re 1e-6 m/s^2');
  });

  it('tells a density over the square of the reference, 10 log10, over Hz, orders and cycles per metre', () => {
    const one = { quantities: [quantity(1, 'm/s^2')] };
    near(levelOf(100, '(m/s^2)^2/Hz', one), 20);
    near(levelOf(100, '(m/s^2)^2', one), 20);
    near(levelOf(100, '(m/s^2)^2*m', one), 20);
    assert.equal(decibelsOf(densityUnit(unit('g')), iso1683)?.symbol, 'dB re (1e-6 m/s^2)^2/Hz');
  });

  it('gives no level of nothing, of less, and over what measures something else', () => {
    assert.ok(Number.isNaN(levelOf(0, 'g')));
    assert.ok(Number.isNaN(levelOf(-1, 'g')));
    assert.equal(levelOf(1, 'kg'), undefined);
    assert.equal(levelOf(1, 'g', { quantities: [quantity(1, 'mm/s')] }), undefined);
    assert.equal(levelOf(1, 'm/s^1.75'), undefined);
  });

  it('tells a ratio of figures as the difference of their levels, whatever the unit and the reference', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-9, max: 1e9 }),
        fc.double({ min: 1e-6, max: 1e6 }),
        fc.constantFrom('g', 'mg', 'm/s^2', 'mm/s^2'),
        fc.constantFrom('g', 'm/s^2', 'µg'),
        (value, ratio, symbol, over) => {
          const reference = { quantities: [quantity(2.5, over)] };
          const change = levelOf(value * ratio, symbol, reference)! - levelOf(value, symbol, reference)!;
          assert.ok(Math.abs(change - 20 * Math.log10(ratio)) < 1e-8);
        },
      ),
    );
  });
});
