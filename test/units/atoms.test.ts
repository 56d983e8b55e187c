import { strict as assert } from 'node:assert';
import { atoms, atomSymbols, usualCompounds } from '../../src/units/atoms.ts';
import { isUnit } from '../../src/units/parse.ts';

describe('the units without operators', () => {
  it('are each found by their symbol and by every further spelling', () => {
    for (const symbol of atomSymbols) assert.equal(atoms.get(symbol)?.symbol, symbol);
    for (const [spelling, symbol] of [
      ['us', 'µs'],
      ['seconds', 's'],
      ['g_n', 'g'],
      ['percent', '%'],
      ['LSB', 'counts'],
    ])
      assert.equal(atoms.get(spelling)?.symbol, symbol);
    assert.equal(new Set(atomSymbols).size, atomSymbols.length);
  });

  it('are of one size with those they are made of', () => {
    const size = (symbol: string): number => atoms.get(symbol)?.factor ?? NaN;
    for (const [one, count, other] of [
      ['h', 60, 'min'],
      ['g', 1000, 'mg'],
      ['ft', 12, 'in'],
      ['mi', 5280, 'ft'],
      ['bar', 1000, 'mbar'],
      ['kgf', 9.80665, 'N'],
      ['psi', 6894.757293168361, 'Pa'],
      ['Hz', 60, 'rpm'],
    ] as const)
      assert.ok(Math.abs(size(one) / (count * size(other)) - 1) < 1e-14, one);
  });

  it('make the compounds that are offered', () => {
    for (const compound of usualCompounds) assert.ok(isUnit(compound), compound);
  });
});
