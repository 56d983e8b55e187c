import { strict as assert } from 'node:assert';
import type { Output } from '../../src/charts/output.ts';
import { pageOfTests } from './page.ts';

const tableOf = (rows: number): Output => ({
  version: 1,
  name: 'L',
  kind: 'levels',
  messages: [],
  text: '',
  parts: [
    {
      type: 'table',
      caption: 'Levels of many runs',
      columns: [
        { name: 'Run', unit: '', align: 'left' },
        { name: 'R.m.s.', unit: 'g', align: 'right' },
      ],
      rows: Array.from({ length: rows }, (_, row) => [`run ${row + 1}`, (row / 1000).toFixed(3)]),
    },
  ],
});

describe('tables of thousands of rows', () => {
  const host = pageOfTests();

  const rows = (): Promise<string[]> => host.page.locator('#many tbody th').allTextContents();
  const button = () => host.page.locator('#many .washboard-scroll button');

  it('show their first rows, more at each press, and all of them in the end', async () => {
    await host.render('many', tableOf(450));
    assert.equal((await rows()).length, 200);
    assert.equal(await host.page.locator('#many table').getAttribute('aria-rowcount'), '451');
    const said = await button().textContent();
    assert.match(said ?? '', /200.*450/);
    await button().click();
    assert.equal((await rows()).length, 400);
    assert.notEqual(await button().textContent(), said);
    await button().click();
    const all = await rows();
    assert.deepEqual([all.length, all[0], all[449]], [450, 'run 1', 'run 450']);
    assert.equal(await button().count(), 0);
    assert.deepEqual(host.complaints, []);
  });

  it('have no button where all rows stand there', async () => {
    await host.render('many', tableOf(200));
    assert.deepEqual([(await rows()).length, await button().count()], [200, 0]);
  });
});
