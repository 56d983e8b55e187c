import { strict as assert } from 'node:assert';
import { errorOf, near, valueOf } from '../notebook.ts';
import { pads } from '../pads.ts';

describe('order', () => {
  it('is interleaved: ABBA BAAB, in which a steady drift cancels', async () => {
    const value = await valueOf('order', 'order 4', {});
    assert.equal(value.sequence.join(''), 'ABBABAAB');
    assert.equal(value.leanPercent, 0);
    const odd = await valueOf('order', 'order 3', {});
    assert.equal(odd.sequence.join(''), 'ABBAAB');
    near(odd.leanPercent, (2 + 3 + 6) / 3 - (1 + 4 + 5) / 3, 1e-12);
  });

  it('by blocks holds one of each in every pair, and is the same for the same seed', async () => {
    const of = async (seed: number): Promise<string> =>
      (await valueOf('order', `order 20 blocks seed ${seed}`, {})).sequence.join('');
    const found = await of(7);
    for (let k = 0; k < 40; k += 2) assert.ok(['AB', 'BA'].includes(found.slice(k, k + 2)));
    assert.equal(await of(7), found);
    assert.notEqual(await of(8), found);
  });

  it('by blocks names the pairs in its sheet, and else leaves them open', async () => {
    const sheetOf = async (text: string): Promise<string> => (await valueOf('order', text, {})).sheet ?? '';
    assert.match(await sheetOf('order 2 blocks'), /^,[AB],3,2,/m);
    assert.match(await sheetOf('order 2'), /^,B,3,,/m);
  });

  it('comes with a run sheet that load can read once its files are named', async () => {
    const { sheet } = await valueOf('order', 'order 3 conditions foam, gel', {});
    assert.ok(sheet !== undefined);
    const files = pads({ a: [0.3, 0.3, 0.3], b: [0.2, 0.2, 0.2] });
    const names = ['foam-1', 'gel-1', 'gel-2', 'foam-2', 'foam-3', 'gel-3'];
    files['runs.csv'] = sheet.replace(/^,/gm, () => `${names.shift()}.csv,`);
    const { runs } = await valueOf('runs', 'load sheet "runs.csv" where condition gel unit g', files);
    assert.deepEqual(
      runs.map(({ label, sheet: facts }) => [label, facts?.order]),
      [
        ['gel-1', 2],
        ['gel-2', 3],
        ['gel-3', 6],
      ],
    );
  });

  it('of several conditions is of a Williams design, with a sheet that names them', async () => {
    const value = await valueOf('order', 'order 4 conditions rigid, rubber, cork', {});
    assert.match(value.scheme, /Williams design \(1949\)/);
    assert.equal(value.sequence.join(''), 'ABCCBABCAACB');
    assert.equal(value.leanPercent, 0);
    const rows = (value.sheet ?? '').trim().split('\n').slice(1);
    assert.deepEqual(
      rows.map((row) => row.split(',')[1]),
      value.sequence.map((letter) => ({ A: 'rigid', B: 'rubber', C: 'cork' })[letter]),
    );
    const { sheet } = await valueOf('order', 'order 2 blocks conditions rigid, rubber, cork', {});
    assert.match(sheet ?? '', /^,(rigid|rubber|cork),4,2,/m);
  });

  it('refuses what is no order', async () => {
    assert.match((await errorOf('order 2.5')).message, /whole number/);
    assert.match((await errorOf('order 0')).message, /1/);
    assert.match((await errorOf('order 4 seed 7')).message, /goes with blocks/);
    assert.match((await errorOf('order 4 conditions foam')).message, /two conditions or more/);
    assert.match((await errorOf('order 4 conditions foam, gel, foam')).message, /a name of its own/);
  });
});
