import { strict as assert } from 'node:assert';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { projectFolder, Workbench, type Theme } from '../harness.ts';

/** Some noise at 200 Hz for 20 s. */
function recording(size: number, seed: number): string {
  let state = seed;
  const noise = (): number => (state = (state * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32 - 0.5;
  const rows = Array.from(
    { length: 4000 },
    (_, n) => `${(n / 200).toFixed(3)},${(size * noise()).toFixed(4)},${(1 + size * noise()).toFixed(4)}`,
  );
  return `t (s),y (g),z (g)\n${rows.join('\n')}\n`;
}

const themes = ['dark', 'high-contrast', 'high-contrast-light', 'light'] satisfies Theme[];

describe('a newcomer with a folder of recordings, in a served editor', function () {
  let workbench: Workbench;

  before(async () => {
    const runs = [1, 2, 3, 4].flatMap((run) => [
      [`raw/before-${run}.csv`, recording(0.8, run)],
      [`raw/after-${run}.csv`, recording(0.4, 10 + run)],
    ]);
    workbench = await Workbench.open({ files: Object.fromEntries(runs) });
  });
  after(async () => workbench?.close());

  const shot = (name: string): Promise<void> =>
    workbench.screenshot(join(projectFolder, 'out', 'screenshots', `newcomer-${name}.png`));
  const lookFrame = () =>
    workbench.page.locator('iframe.webview.ready').last().contentFrame().locator('iframe#active-frame').contentFrame();

  it('is welcomed in the explorer', async () => {
    await workbench.page.getByText('This folder holds recordings').waitFor();
    await shot('welcome');
  });

  it('looks at a recording: its trace, what was found, and a way into a notebook, in every theme and width', async () => {
    const explorer = workbench.page.locator('.explorer-folders-view .monaco-list-row');
    await explorer.filter({ hasText: 'raw' }).first().click();
    await explorer.filter({ hasText: 'before-1.csv' }).first().click({ button: 'right' });
    await workbench.page.locator('.monaco-menu').getByText('Look at Recording').click();
    const page = lookFrame();
    await page.getByRole('heading', { name: 'First look at before-1.csv' }).waitFor();
    assert.equal(await page.locator('svg').count(), 2);
    await page.getByRole('link', { name: 'Use in a Notebook' }).waitFor();
    for (const theme of themes) {
      await workbench.theme(theme, page);
      for (const width of [800, 1280]) {
        await workbench.page.setViewportSize({ width, height: 900 });
        await shot(`look-${theme}-${width}`);
      }
    }
    await workbench.page.setViewportSize({ width: 1400, height: 1000 });
  });

  it('starts a study that runs to its claim as it stands', async () => {
    await workbench.page.getByRole('button', { name: 'Start a Study from Them' }).first().click();
    await workbench.page.locator('.tab.active').filter({ hasText: 'study.washboard.md' }).waitFor();
    assert.ok(readdirSync(workbench.folder).includes('study.washboard.md'));
    await workbench.page.locator('.kernel-label').first().waitFor();
    await shot('study');
  });
});
