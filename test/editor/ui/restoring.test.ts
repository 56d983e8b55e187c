import { strict as assert } from 'node:assert';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import { recording } from '../../engine/memoryFiles.ts';
import { until, Workbench, type OpenNotebook } from '../harness.ts';

const file = 'ride.washboard.md';
const fence = (text: string): string => `\`\`\`washboard\n${text}\n\`\`\`\n\n`;
const cells = ['# The ride\nride = load "raw/*.csv" | channel z | trim 2..18 s', 'plot ride', 'levels ride'];
const text = `# A ride\n\n${cells.map(fence).join('')}`;
const files = { [file]: text, 'raw/a.csv': recording({ seed: 1 }), 'raw/b.csv': recording({ seed: 2, level: 0.4 }) };

describe('outputs that come back, in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;
  before(async () => {
    workbench = await Workbench.open({ files, theme: 'light' });
    notebook = await workbench.openNotebook(file);
    await notebook.runAll();
    for (const at of [1, 2, 3]) assert.equal(await notebook.ended(at), 'success');
  });
  after(async () => workbench?.close());

  const slider = (name: RegExp): Locator => notebook.outputs().getByRole('slider', { name }).first();
  const saved = (): string => new TextDecoder().decode(workbench.read(file));

  it('are shown after a reload without a run, say so, and leave the file as it is and clean', async () => {
    notebook = await workbench.reload();
    await notebook.reveal(2);
    await slider(/^Trim start, cell 2, The ride$/).waitFor();
    const row = await notebook.reveal(3);
    await row.locator('.cell-status-item').filter({ hasText: 'From an earlier run' }).waitFor();
    assert.equal(await row.locator('.codicon-notebook-state-success').count(), 0);
    assert.equal(await workbench.page.locator('.tab.active.dirty').count(), 0);
    assert.equal(saved(), text);
  });

  it('have handles that write, as those of a run do', async () => {
    await notebook.reveal(2);
    await slider(/^Trim start/).focus();
    await workbench.page.keyboard.press('PageUp');
    await until(
      async () => /trim (?!2\.\.)[\d.]+\.\.18 s/.test(await notebook.textOf(1)),
      async () => `a moved trim: ${await notebook.textOf(1)}`,
    );
    await notebook.reveal(2);
    await slider(/^Trim start/).focus();
    await workbench.page.keyboard.press('ControlOrMeta+Z');
    await until(async () => (await notebook.textOf(1)).includes('trim 2..18 s'), 'the trim as it was');
    await notebook.save();
    await until(
      async () => saved() === text,
      async () => `the file as it was: ${saved()}`,
    );
  });

  it('are shown after a change on the disk, with handles that know the cell where their number stands by now', async () => {
    // The editor may be saving by itself still, and takes no change for one of others' then.
    await new Promise((resolve) => setTimeout(resolve, 3000));
    writeFileSync(join(workbench.folder, file), text.replace(fence(cells[0]), `${fence('k = 3')}${fence(cells[0])}`));
    await until(async () => (await notebook.textOf(1)) === 'k = 3', 'the notebook read anew');
    await notebook.reveal(3);
    await slider(/^Trim start, cell 3, The ride$/).waitFor();
    await slider(/^Trim start/).focus();
    await workbench.page.keyboard.press('PageUp');
    await until(
      async () => /trim (?!2\.\.)[\d.]+\.\.18 s/.test(await notebook.textOf(2)),
      async () => `a moved trim: ${await notebook.textOf(2)}`,
    );
    assert.deepEqual(workbench.errors, []);
  });
});
