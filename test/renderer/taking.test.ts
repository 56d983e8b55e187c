import { strict as assert } from 'node:assert';
import type { Locator } from 'playwright-core';
import { present } from '../../src/charts/present.ts';
import { everyValue, plotOf } from '../charts/everyValue.ts';
import { foamSpectrum } from '../charts/madeUp.ts';
import { pageOfTests } from './page.ts';

const chart = present(plotOf([foamSpectrum]), 'S', []);
const levels = present(everyValue.levels, 'L', []);

describe('the menus of charts and tables', () => {
  const host = pageOfTests();
  before(() => host.page.context().grantPermissions(['clipboard-read', 'clipboard-write']));
  beforeEach(async () => {
    await host.dispose();
    await host.asked();
  });

  const button = (id: string): Locator =>
    host.page
      .locator(`#${id}`)
      .getByRole('button', { name: /^Save or copy: / })
      .first();
  const entries = (): Promise<string[]> => host.page.getByRole('menuitem').allTextContents();
  const choose = async (id: string, label: string): Promise<void> => {
    await button(id).click();
    await host.page.getByRole('menuitem', { name: label, exact: true }).click();
  };

  it('are opened, gone through and left by keys, and say what they are for', async () => {
    await host.render('one', chart);
    assert.match(
      (await button('one').getAttribute('aria-label')) ?? '',
      /^Save or copy: Acceleration spectral density/,
    );
    await button('one').focus();
    await host.page.keyboard.press('Enter');
    assert.equal(await button('one').getAttribute('aria-expanded'), 'true');
    assert.deepEqual(await entries(), [
      'Save Picture…',
      'Copy Picture',
      'Copy the Chart in Words',
      'Copy as Prose Number…',
    ]);
    const focused = (): Promise<string | null> => host.page.evaluate(() => document.activeElement!.textContent);
    assert.equal(await focused(), 'Save Picture…');
    await host.page.keyboard.press('ArrowUp');
    assert.equal(await focused(), 'Copy as Prose Number…');
    await host.page.keyboard.press('Home');
    await host.page.keyboard.press('Escape');
    assert.deepEqual([await entries(), await focused()], [[], '⋯']);
    await host.page.keyboard.press('Enter');
    await host.page.keyboard.press('Enter');
    assert.deepEqual(await host.asked(), [{ type: 'save picture', output: 'of one', chart: 0 }]);
    assert.deepEqual(host.complaints, []);
  });

  it('copy a table as it is shown, save it, and ask for a number of the result', async () => {
    await host.render('one', levels);
    for (const label of ['Copy Table', 'Copy Table as Markdown', 'Save Table as CSV…', 'Copy as Prose Number…'])
      await choose('one', label);
    const [tsv, markdown, csv, number] = await host.asked();
    const part = levels.parts.find((one) => one.type === 'table')!;
    assert.ok(tsv.type === 'copy text' && markdown.type === 'copy text' && csv.type === 'save text');
    assert.equal(tsv.text.split('\n').length, part.rows.length + 2);
    assert.equal(tsv.text.split('\n')[0].split('\t').length, part.columns.length);
    assert.match(markdown.text, /^\| Run \|.*\n\| --- \|/);
    assert.equal(csv.name, 'Levels-of-foam.csv');
    assert.match(csv.text, /^Run,/);
    assert.deepEqual(number, { type: 'copy number', output: 'of one' });
    await host.page.locator('#one').getByRole('status').filter({ hasText: 'Copied' }).first().waitFor();
  });

  it('draw an SVG as a PNG of a size for the editor', async () => {
    await host.render('one', chart);
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="2mm" height="1mm"><rect width="9" height="9" fill="red"/></svg>';
    await host.tell({ type: 'rasterise', id: 7, svg, width: 200, height: 100 });
    let answer = (await host.asked()).at(0);
    for (let tries = 0; tries < 50 && answer === undefined; tries++) {
      await host.page.waitForTimeout(100);
      answer = (await host.asked()).at(0);
    }
    assert.ok(answer?.type === 'rasterised' && answer.id === 7, JSON.stringify(answer));
    const png = Buffer.from(answer.png ?? '', 'base64');
    assert.deepEqual([png.toString('latin1', 1, 4), png.readUInt32BE(16), png.readUInt32BE(20)], ['PNG', 200, 100]);
  });

  it('copy the sentences of an answer as a whole: what leads, and what follows it', async () => {
    const told = {
      ...levels,
      parts: [
        { type: 'text', text: 'Lower.' },
        { type: 'text', text: 'Aside.', style: 'aside' },
      ],
    };
    await host.render('one', told);
    await choose('one', 'Copy Sentence');
    assert.deepEqual(await host.asked(), [{ type: 'copy text', text: 'Lower.' }]);
    assert.equal(await host.page.locator('#one .washboard-more').count(), 1);
  });

  it('are in the words of the reader once the editor has told them', async () => {
    await host.render('one', levels);
    const words = { 'Save or copy: {0}': 'Sichern: {0}', 'Copy Table': 'Tabelle kopieren', Copied: 'Kopiert' };
    await host.tell({ type: 'words', words });
    const named = host.page.locator('#one').getByRole('button', { name: 'Sichern: Levels of foam' });
    await named.click();
    await host.page.getByRole('menuitem', { name: 'Tabelle kopieren', exact: true }).click();
    await host.page.locator('#one').getByRole('status').filter({ hasText: 'Kopiert' }).first().waitFor();
    await host.tell({ type: 'words', words: {} });
    await button('one').waitFor();
    await host.asked();
  });

  it('copy the picture that is shown', async () => {
    await host.render('one', chart);
    await choose('one', 'Copy Picture');
    await host.page
      .locator('#one')
      .getByRole('status')
      .filter({ hasText: /Copied|Not copied/ })
      .first()
      .waitFor();
    const said = await host.page.locator('#one').getByRole('status').first().textContent();
    assert.equal(said, 'Copied');
  });
});
