import { strict as assert } from 'node:assert';
import type { Cells } from '../../src/values/cells.ts';
import { savedTables } from '../../src/values/tabulate.ts';
import { valueOf } from '../verbs/notebook.ts';
import { loadMounts, mounts, wobble } from '../verbs/mounts.ts';
import { loadPads, pads } from '../verbs/pads.ts';

const names = ['rigid', 'rubber', 'cork'];
const files = mounts({
  runs: Array.from({ length: 12 }, (_, k) => ({
    condition: names[k % 3],
    level: (0.3 - 0.05 * (k % 3)) * (1 + wobble(k)),
    facts: { flow: k < 6 ? 'low' : 'high' },
  })),
});

/** The table of a comparison as it is saved, and that of the levels of its runs. */
async function saved(compare: string, channel?: string): Promise<{ changes: Cells; levels: Cells }> {
  const value = await valueOf('comparison', loadMounts(names, '', channel) + compare, files);
  const [changes, levels] = savedTables(value).map(({ cells }) => cells);
  return { changes, levels };
}

const headings = ({ columns }: Cells): string[] => columns.map(({ name }) => name);
const column = ({ columns, rows }: Cells, name: string): unknown[] =>
  rows.map((row) => row[columns.findIndex((one) => one.name === name)]);

describe('the saved tables of a comparison', () => {
  it('name the levels of several conditions by no one of them', async () => {
    const { changes } = await saved('compare rigid with rubber, cork all-pairs over 10..30 Hz');
    assert.deepEqual(headings(changes).slice(0, 6), ['baseline', 'condition', 'from', 'to', 'baseline', 'condition']);
    assert.ok(headings(changes).includes('share of baseline'));
    assert.ok(!headings(changes).some((name) => names.some((one) => name.includes(one))));
    const two = await valueOf(
      'comparison',
      `${loadPads}compare foam with gel over 10..30 Hz`,
      pads({ a: [0.3], b: [0.2] }),
    );
    const [plain] = savedTables(two);
    assert.deepEqual(headings(plain.cells).slice(0, 4), ['from', 'to', 'foam', 'gel']);
  });

  it('tell of each run its stratum where there are strata, and every run once in a band', async () => {
    const { levels } = await saved('compare rigid with rubber, cork within flow over 10..30 Hz');
    assert.deepEqual(headings(levels).slice(0, 3), ['condition', 'stratum', 'run']);
    const rows = levels.rows.map(([condition, stratum, run]) => [condition, stratum, run].join(' '));
    assert.equal(rows.length, 12);
    assert.ok(rows.includes('rigid low rigid-1') && rows.includes('cork high cork-12'));
  });

  it('tell of each level its axis where there are several', async () => {
    const { levels } = await saved('compare rigid with rubber axes x, z over 10..30 Hz', ' | channel x, z');
    assert.deepEqual(headings(levels).slice(0, 3), ['condition', 'axis', 'run']);
    assert.deepEqual(column(levels, 'axis').map(String).sort().join(''), 'x'.repeat(8) + 'z'.repeat(8));
    assert.doesNotMatch(levels.caption, /channel/);
  });
});
