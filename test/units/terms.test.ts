import { strict as assert } from 'node:assert';
import { termsOf } from '../../src/units/parse.ts';
import { merge, symbolOf, unitOf, type Term } from '../../src/units/terms.ts';

function terms(text: string): readonly Term[] {
  const found = termsOf(text);
  return 'unknown' in found ? assert.fail(`no such unit: ${text}`) : found;
}
const times = (text: string, exponent: number): Term[] =>
  terms(text).map((term) => ({ ...term, exponent: exponent * term.exponent }));

describe('symbolOf', () => {
  it('writes what multiplies first, then each divisor after its own line', () => {
    assert.equal(symbolOf(terms('N*s/m')), 'N*s/m');
    assert.equal(symbolOf([...times('m', -1), ...times('N', 1), ...times('s', -2)]), 'N/m/s^2');
    assert.equal(symbolOf(times('s', -2)), '1/s^2');
    assert.equal(symbolOf(times('Hz', 0.5)), 'Hz^0.5');
    assert.equal(symbolOf([]), '');
  });

  it('takes the brackets off a compound that stands alone', () => {
    const compound = { ...terms('m')[0], symbol: '(m/s^2)' };
    assert.equal(symbolOf([compound]), 'm/s^2');
    assert.equal(symbolOf([{ ...compound, exponent: 2 }]), '(m/s^2)^2');
  });
});

describe('unitOf', () => {
  it('multiplies sizes and adds up dimensions by their exponents', () => {
    const { symbol, factor, dimension } = unitOf([...times('mm', 2), ...times('min', -1)]);
    assert.equal(symbol, 'mm^2/min');
    assert.ok(Math.abs(factor - 1e-6 / 60) < 1e-22);
    assert.deepEqual([dimension.length, dimension.time, dimension.mass], [2, -1, 0]);
  });
});

describe('merge', () => {
  it('writes a symbol once and drops what cancels', () => {
    assert.equal(symbolOf(merge([...times('m', 1), ...times('s', -1), ...times('m', 2), ...times('s', 1)])), 'm^3');
    assert.deepEqual(merge([...times('N', 0.5), ...times('N', -0.5)]), []);
  });
});
