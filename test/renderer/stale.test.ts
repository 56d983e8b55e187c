import { strict as assert } from 'node:assert';
import type { Locator } from 'playwright-core';
import { present } from '../../src/charts/present.ts';
import { everyValue } from '../charts/everyValue.ts';
import { pageOfTests } from './page.ts';

const levels = present(everyValue.levels, 'L', []);
const why = 'Out of date: trim of cell "Foam" changed.';

describe('outputs out of date', () => {
  const host = pageOfTests();
  afterEach(() => host.dispose());

  const root = (id: string): Locator => host.page.locator(`#${id} > .washboard-output`);
  const opacity = (id: string): Promise<string> =>
    root(id)
      .locator('table')
      .first()
      .evaluate((node) => getComputedStyle(node.closest('.washboard-output > *')!).opacity);
  const mark = (output: string, said = why): Promise<void> =>
    host.tell({ type: 'stale', marks: [{ output: `of ${output}`, why: said }] });

  it('are asked for when they are drawn, dimmed, and say why and how to run their cell', async () => {
    await host.render('one', levels);
    await host.render('two', levels);
    await mark('one');
    assert.equal(await root('one').locator('.washboard-why[role=status] span').textContent(), why);
    assert.deepEqual([await opacity('one'), await opacity('two')], ['0.5', '1']);
    assert.equal(await root('two').locator('.washboard-why').count(), 0);
    await root('one').getByRole('button', { name: 'Run' }).focus();
    await host.page.keyboard.press('Enter');
    assert.deepEqual(await host.asked(), [{ type: 'run', output: 'of one' }]);
    assert.deepEqual(host.complaints, []);
  });

  it('say one thing at a time, and nothing once they are up to date or drawn anew', async () => {
    await host.render('one', levels);
    await mark('one');
    await mark('one', 'Out of date: raw/a1.csv changed.');
    assert.deepEqual(await root('one').locator('.washboard-why[role=status] span').allTextContents(), [
      'Out of date: raw/a1.csv changed.',
    ]);
    await host.tell({ type: 'stale', marks: [] });
    assert.deepEqual([await root('one').locator('.washboard-why').count(), await opacity('one')], [0, '1']);
    await mark('one');
    await host.render('one', levels);
    assert.deepEqual([await root('one').locator('.washboard-why').count(), await opacity('one')], [0, '1']);
  });

  it('are only dimmed where another output of the cell says why', async () => {
    await host.render('one', levels);
    await mark('one', '');
    assert.deepEqual([await root('one').locator('.washboard-why').count(), await opacity('one')], [0, '0.5']);
  });
});
