import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { atomSymbols } from '../../src/units/atoms.ts';
import { dimensionOf, sameDimension } from '../../src/units/dimension.ts';
import { densityUnit, isUnit, parseUnit, unit } from '../../src/units/parse.ts';
import { standardGravity } from '../../src/units/unit.ts';

const close = (a: number, b: number, relative = 1e-12): void =>
  assert.ok(Math.abs(a - b) <= relative * Math.abs(b), `${a} is not ${b}`);

describe('parseUnit', () => {
  it('knows every unit that the language names', () => {
    const names =
      's ms min Hz kHz g m/s^2 m/s² mm/s m mm in km mi kg lb N kgf lbf N/mm N/m kgf/mm lbf/in Pa kPa bar psi km/h mph % dB us µs mg mm/s^2 rpm counts';
    for (const name of names.split(' ')) assert.ok(parseUnit(name).ok, name);
  });

  it('takes g for standard gravity and mg for a thousandth of it', () => {
    assert.equal(unit('g').factor, standardGravity);
    close(unit('mg').factor, 0.00980665);
    assert.ok(sameDimension(unit('g').dimension, dimensionOf('acceleration')));
  });

  it('reads raised digits, a Greek mu and dots as their usual signs', () => {
    assert.equal(unit('m/s²').symbol, 'm/s^2');
    assert.equal(unit('\u03bcs').symbol, 'µs');
    assert.equal(unit('us').symbol, 'µs');
    assert.equal(unit('N·s/m').symbol, 'N*s/m');
    assert.equal(unit('m s^-2'.replace(' ', '*')).symbol, 'm/s^2');
  });

  it('reads brackets and a leading 1', () => {
    assert.equal(unit('(m/s²)²/Hz').symbol, '(m/s^2)^2/Hz');
    assert.equal(unit('1/s').symbol, '1/s');
    assert.ok(sameDimension(unit('1/s').dimension, dimensionOf('frequency')));
    close(unit('(m/s^2)^2/Hz').factor, 1);
    close(unit('g^2/Hz').factor, 96.1703842, 1e-8);
  });

  it('names the part that is no unit, with near ones', () => {
    const read = (text: string): unknown => {
      const parsed = parseUnit(text);
      return parsed.ok ? parsed.unit.symbol : [parsed.unknown, parsed.nearest[0]];
    };
    assert.deepEqual(read('hz'), ['hz', 'Hz']);
    assert.deepEqual(read('N/mmm'), ['mmm', 'mm']);
    assert.deepEqual(read('kpa'), ['kpa', 'kPa']);
    assert.deepEqual(read('m/'), ['', undefined]);
  });

  it('is not taken in by half a unit', () => {
    for (const text of ['m/', '*m', 'm^', '(m', 'm)', 'm//s', 'm s', 'g2', '2 m', '^2']) assert.ok(!isUnit(text), text);
  });

  it('reads back every symbol it writes, in the same size', () => {
    const term = fc.tuple(fc.constantFrom(...atomSymbols), fc.integer({ min: 1, max: 3 }));
    fc.assert(
      fc.property(
        fc.array(term, { minLength: 1, maxLength: 4 }),
        fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
        (terms, over) => {
          const text = terms
            .map(([atom, power], i) => (i === 0 ? '' : over[i] ? '*' : '/') + `${atom}^${power}`)
            .join('');
          const first = unit(text);
          const again = unit(first.symbol);
          assert.equal(again.symbol, first.symbol);
          close(again.factor, first.factor, 1e-12);
          assert.ok(sameDimension(again.dimension, first.dimension));
        },
      ),
    );
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 12, unit: fc.constantFrom(...'mgsN/^*()2-% .²µx') }),
        (text) => void parseUnit(text),
      ),
    );
  });
});

describe('densityUnit', () => {
  it('squares the unit and divides by Hz', () => {
    assert.equal(densityUnit(unit('g')).symbol, 'g^2/Hz');
    assert.equal(densityUnit(unit('m/s²')).symbol, '(m/s^2)^2/Hz');
    assert.equal(densityUnit(unit('')).symbol, '1/Hz');
  });
});
