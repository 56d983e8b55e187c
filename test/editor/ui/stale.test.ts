import { strict as assert } from 'node:assert';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import { recording } from '../../engine/memoryFiles.ts';
import { projectFolder, until, Workbench, type OpenNotebook, type Theme } from '../harness.ts';
import { openRide, rideCell } from './ride.ts';

const cells = [rideCell, 'plot ride', 'levels ride'];

describe('outputs out of date, in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;
  before(async () => {
    ({ workbench, notebook } = await openRide(cells, { 'washboard.updateDependents': false }));
  });
  after(async () => workbench?.close());

  const reasons = (): Locator => notebook.outputs().locator('.washboard-why span');
  const picture = (name: string): Promise<void> =>
    workbench.screenshot(join(projectFolder, 'out', 'screenshots', `stale-${name}.png`));

  it('are dimmed and say what changed, are counted, and run by one click', async () => {
    await notebook.editCell(1, cells[0].replace('2..18', '4..16'));
    await notebook.reveal(2);
    await until(
      async () => (await reasons().allTextContents()).includes('Out of date: trim of cell "The ride" changed.'),
      async () => (await reasons().allTextContents()).join('; '),
    );
    for (const theme of ['dark', 'high-contrast', 'high-contrast-light', 'light'] satisfies Theme[]) {
      await workbench.theme(theme);
      await picture(theme);
    }
    const count = workbench.page.locator('.statusbar-item').filter({ hasText: '3 cells out of date' });
    await count.click();
    await until(async () => (await reasons().count()) === 0, 'outputs that are up to date');
    await count.waitFor({ state: 'hidden' });
  });

  it('name the raw file that changed, and run from their own button', async () => {
    writeFileSync(join(workbench.folder, 'raw/a.csv'), recording({ seed: 7 }));
    await notebook.reveal(3);
    const levels = notebook
      .outputs()
      .locator('.washboard-output')
      .filter({ has: notebook.outputs().getByRole('table') });
    await until(
      async () => (await reasons().allTextContents()).includes('Out of date: raw/a.csv changed.'),
      async () => (await reasons().allTextContents()).join('; '),
    );
    const before = await reasons().count();
    await levels.last().getByRole('button', { name: 'Run', exact: true }).click();
    await until(async () => (await reasons().count()) === before - 1, 'one output less that is out of date');
  });

  it('are counted by the title of a button in the toolbar, which runs them and goes', async () => {
    // The case of letters tells it from the status bar.
    const buttons = (name: RegExp): Locator => workbench.page.getByRole('button', { name }).locator('visible=true');
    const button = async (name: RegExp): Promise<void> => {
      await buttons(name).first().waitFor();
      await until(async () => (await buttons(/\d.* Cells? Out of Date/).count()) === 1, 'one button');
    };
    await notebook.editCell(1, cells[0].replace('2..18', '3..17'));
    await button(/^3 Cells Out of Date/);
    assert.equal(await notebook.runCell(1), 'success', await notebook.textOf(1));
    await button(/^2 Cells Out of Date/);
    await buttons(/^2 Cells Out of Date/)
      .first()
      .click();
    await until(async () => (await buttons(/\d.* Cells? Out of Date/).count()) === 0, 'a toolbar without the button');
    await until(async () => (await reasons().count()) === 0, 'outputs that are up to date');
    assert.deepEqual(workbench.errors, []);
  });
});
