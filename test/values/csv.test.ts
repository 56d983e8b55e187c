import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import papaparse from 'papaparse';
import { csvOf } from '../../src/values/csv.ts';
import { tabulate } from '../../src/values/tabulate.ts';
import { everyValue } from '../charts/everyValue.ts';

const parsed = (text: string): string[][] => {
  const { data, errors } = papaparse.parse<string[]>(text, { delimiter: ',', newline: '\n' });
  assert.deepEqual(errors, []);
  assert.deepEqual(data.pop(), [''], 'the last line is ended too');
  return data;
};

describe('a table as CSV', () => {
  it('comes back with every figure and word, for every kind that has a table', () => {
    for (const value of Object.values(everyValue)) {
      const table = tabulate(value);
      if (table === undefined) continue;
      const [head, ...rows] = parsed(csvOf(table));
      assert.equal(head.length, table.columns.length);
      assert.deepEqual(
        rows,
        table.rows.map((row) => row.map((cell) => (cell === null ? '' : String(cell)))),
        value.kind,
      );
    }
  });

  it('comes back whatever its words and numbers hold', () => {
    const cell = fc.oneof(
      fc.string(),
      fc.constantFrom('a,b', '"', 'x\ny', ' '),
      fc.double({ noNaN: true }),
      fc.constant(null),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1 }), (rows) => {
        const columns = [
          { name: 'r.m.s.', unit: 'm/s^2' },
          { name: 'run', unit: '' },
        ];
        const [head, ...back] = parsed(csvOf({ columns, rows }));
        assert.deepEqual(head, ['r.m.s. (m/s^2)', 'run']);
        assert.deepEqual(
          back,
          rows.map((row) => row.map((one) => (one === null ? '' : String(one)))),
        );
      }),
    );
  });
});
