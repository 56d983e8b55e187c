import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';

/** What a column of a table shows. */
function shown(figures: readonly (number | null)[], name = 'change'): string[] {
  const value = {
    kind: 'table',
    caption: '',
    columns: [{ name, unit: '' }],
    rows: figures.map((one) => [one]),
  } as const;
  const [part] = present(value, undefined, []).parts;
  assert.ok(part.type === 'table');
  return part.rows.map(([text]) => text);
}

describe('a table of figures', () => {
  it('keeps plain figures where one row is about 0', () => {
    assert.deepEqual(shown([-21.512345, 11.812345, 0.00004123]), ['−21.5123', '11.8123', '4.12300×10⁻⁵']);
    assert.deepEqual(shown([-21.512345, 0.00004123]), ['−21.5123', '4.12300×10⁻⁵']);
    assert.deepEqual(shown([-21.512345, 11.812345, 3.1e-16]), ['−21.5123', '11.8123', '0']);
    assert.deepEqual(shown([0.1234567, 3.1e-16, 0.7654321]), ['0.123457', '0', '0.765432']);
  });

  it('is in powers of ten where most figures need it', () => {
    assert.deepEqual(shown([1.234567e-7, 2.345678e-6, 3.456789e-3]), ['1.23457×10⁻⁷', '2.34568×10⁻⁶', '3.45679×10⁻³']);
    assert.deepEqual(shown([1234567.8, 0.1234567]), ['1.23457×10⁶', '1.23457×10⁻¹']);
  });

  it('tells the smallest p, and what is not finite', () => {
    assert.deepEqual(shown([0.1234567, 1.234567e-14], 'p adjusted'), ['0.123457', '1.23457×10⁻¹⁴']);
    assert.deepEqual(shown([0.1234567, Infinity, null]), ['0.123457', '–', '–']);
  });
});
