import { strict as assert } from 'node:assert';
import { recordingOf, sine, valueOf } from '../notebook.ts';

const files = { 'a.csv': recordingOf({ 'x (g)': sine(5) }), 'b.csv': recordingOf({ 'x (g)': sine(5, 2) }) };
const load = 'r = load "*.csv"\n';

describe('table', () => {
  it('gives a row a run, with the units in its heads and the figures of the value', async () => {
    const table = await valueOf('table', `${load}table (levels r)`, files);
    assert.equal(table.rows.length, 2);
    const levels = await valueOf('levels', `${load}levels r`, files);
    const rms = table.columns.findIndex(({ name }) => name === 'rms');
    assert.equal(table.columns[rms].unit, 'g');
    assert.deepEqual(
      table.rows.map((row) => Number(row[rms]).toPrecision(3)),
      levels.rows.map((one) => one.rms.toPrecision(3)),
    );
  });

  it('takes a quantity, written or computed', async () => {
    for (const line of ['table 3 mm', 'a = 1 mm + 2 mm\ntable a']) {
      const { rows } = await valueOf('table', line, files);
      assert.equal(rows.length, 1, line);
      assert.ok(rows[0].includes(3), line);
    }
  });
});
