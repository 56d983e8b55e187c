import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { formatNumber, formatQuantity } from '../../src/units/format.ts';
import { unit } from '../../src/units/parse.ts';

describe('formatNumber', () => {
  it('gives significant digits without trailing zeros', () => {
    const cases: readonly (readonly [number, string])[] = [
      [0.0123456, '0.01235'],
      [12.3456, '12.35'],
      [250000, '250000'],
      [12345, '12345'],
      [0.5, '0.5'],
      [99.996, '100'],
      [-0.00031, '-0.00031'],
      [1.5e-7, '1.5e-7'],
      [0, '0'],
      [1e9, '1e9'],
    ];
    for (const [value, text] of cases) assert.equal(formatNumber(value), text);
  });
  it('reads back within half a unit of the last digit', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1e12, noNaN: true }), (value) => {
        assert.ok(Math.abs(Number(formatNumber(value)) - value) <= 0.5001e-3 * value);
      }),
    );
  });
  it('shows a dash where there is no number', () => {
    for (const value of [NaN, Infinity, -Infinity]) assert.equal(formatQuantity({ value, unit: unit('g') }), '–');
  });
});
