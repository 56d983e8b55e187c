import { strict as assert } from 'node:assert';
import { recording } from '../../engine/memoryFiles.ts';
import { OpenNotebook, patience, Workbench } from '../harness.ts';

describe('a newcomer with a folder of recordings, in a served editor', function () {
  let workbench: Workbench;

  before(async () => {
    const names = ['before-1', 'before-2', 'after-1', 'after-2'];
    const files = Object.fromEntries(names.map((name, seed) => [`raw/${name}.csv`, recording({ seed })]));
    workbench = await Workbench.open({ files, theme: 'light' });
    await workbench.page.setViewportSize({ width: 800, height: 900 });
  });
  after(async () => workbench?.close());

  it('is welcomed in the explorer without unfolding anything', async () => {
    // The editor searches the folder for recordings before it wakes the extension.
    await workbench.page.getByText('This folder holds recordings').waitFor({ timeout: 3 * patience });
  });

  it('reads the numbers beside a trace on a narrow page', async () => {
    const rows = workbench.page.locator('.explorer-folders-view .monaco-list-row');
    await rows.filter({ hasText: 'raw' }).first().click();
    await workbench.explorerMenu('before-1.csv', 'Look at Recording');
    const frame = workbench.page.locator('iframe.webview.ready').last().contentFrame().locator('iframe#active-frame');
    const end = frame.contentFrame().getByText('20 s', { exact: true }).first();
    await end.waitFor();
    const { height } = (await end.boundingBox())!;
    assert.ok(height > 10, `${height} px`);
  });

  it('sees all of a cell on a narrow page: its lines are wrapped', async () => {
    await workbench.command('Washboard: New Vibration Notebook');
    await workbench.page.locator('.tab.active').filter({ hasText: 'study.washboard.md' }).waitFor();
    await new OpenNotebook(workbench.page).ready();
    const code = workbench.page.locator('.notebookOverlay .code-cell-row').first();
    const text = code.locator('.view-lines');
    await text.getByText('study_plan').first().waitFor();
    // The plan of the starter is four lines long.
    assert.ok((await code.locator('.view-line').count()) > 4);
  });
});
