import { strict as assert } from 'node:assert';
import { present } from '../../../src/charts/present.ts';
import { csvOf } from '../../../src/values/csv.ts';
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

  it('writes its heads as the trade does where people read them, and by their keys in files', async () => {
    const headsOf: Readonly<Record<string, readonly [shown: string, key: string]>> = {
      'levels r': ['r.m.s.', 'rms'],
      'band (spectrum r) 2..10 Hz': ['r.m.s.', 'rms'],
      'running r over 1 s': ['r.m.s.', 'rms'],
      'p = profile 2 Hz 0.1 g^2/Hz, 50 Hz 0.1 g^2/Hz against (spectrum r)\ntable p': ['r.m.s.', 'rms'],
    };
    for (const [value, [shown, key]] of Object.entries(headsOf)) {
      const table = await valueOf('table', load + (value.includes('table') ? value : `table (${value})`), files);
      const [part] = present(table, undefined, []).parts;
      assert.ok(part.type === 'table');
      const heads = part.columns.map(({ name }) => name);
      assert.ok(heads.includes(shown), `${value}: ${heads.join(', ')}`);
      assert.deepEqual(
        heads.filter((head) => /\brms\b|_/.test(head)),
        [],
        value,
      );
      assert.match(csvOf(table), new RegExp(`^[^\n]*\\b${key} \\(g\\)`), value);
    }
  });
});
