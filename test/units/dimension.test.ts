import { strict as assert } from 'node:assert';
import {
  describeDimension,
  dimensionOf,
  nameOfDimension,
  namedDimensions,
  preferredSymbol,
  sameDimension,
} from '../../src/units/dimension.ts';
import { unit } from '../../src/units/parse.ts';

describe('named dimensions', () => {
  it('are those of their preferred units, each another', () => {
    for (const name of namedDimensions) {
      assert.ok(sameDimension(unit(preferredSymbol(name)).dimension, dimensionOf(name)), name);
      assert.equal(nameOfDimension(dimensionOf(name)), name);
    }
  });
  it('are told in words, and others in base units', () => {
    assert.equal(describeDimension(unit('lbf/in').dimension), 'a stiffness');
    assert.equal(describeDimension(unit('N*s/m').dimension), 'a quantity in kg*s^-1');
  });
});
