import { strict as assert } from 'node:assert';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import { until, Workbench, type OpenNotebook } from '../harness.ts';
import { fence, openRide, rideCell, rideFile, rideText } from './ride.ts';

const cells = [rideCell, 'plot ride', 'levels ride'];
const text = rideText(cells);

describe('outputs that come back, in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;
  before(async () => {
    ({ workbench, notebook } = await openRide(cells));
  });
  after(async () => workbench?.close());

  const slider = (name: RegExp): Locator => notebook.outputs().getByRole('slider', { name }).first();
  const saved = (): string => new TextDecoder().decode(workbench.read(rideFile));

  it('are shown after a reload without a run, say so, and leave the file as it is and clean', async () => {
    await workbench.reload();
    notebook = await workbench.notebookInView();
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
    writeFileSync(
      join(workbench.folder, rideFile),
      text.replace(fence(cells[0]), `${fence('k = 3')}${fence(cells[0])}`),
    );
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
