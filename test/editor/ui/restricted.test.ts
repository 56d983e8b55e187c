import { strict as assert } from 'node:assert';
import { until, Workbench, type OpenNotebook } from '../harness.ts';

describe('a workspace that nobody trusts, in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;

  before(async () => {
    const files = { 'a.washboard.md': '```washboard\nstiff = 3 N/mm\n```\n\n```washboard\nmisspelt N\n```\n' };
    workbench = await Workbench.open({ files, restricted: true });
    notebook = await workbench.openNotebook('a.washboard.md');
  });
  after(async () => workbench?.close());

  it('has its notebooks checked, and git not asked', async () => {
    await workbench.page.locator('.notebookOverlay .squiggly-error').first().waitFor();
    await workbench.page.locator('.explorer-folders-view .monaco-list-row').filter({ hasText: 'a.washboard' }).click();
    await workbench.command('Washboard: What Changed Since');
    const told = async (): Promise<boolean> => (await workbench.messages()).some((text) => text.includes('you trust'));
    await until(told, 'a sentence about trust');
  });

  it('is asked for trust when a cell is to run, and runs nothing without', async () => {
    const { page } = workbench;
    await notebook.runAll();
    await page.getByText('Do you trust the authors').waitFor();
    await page.getByRole('button', { name: 'Cancel' }).click();
    assert.equal(await page.locator('.notebookOverlay .codicon-notebook-state-success').count(), 0);
    await notebook.runAll();
    await page.getByRole('button', { name: /^Trust Folder/ }).click();
    assert.equal(await notebook.ended(0), 'success');
  });
});
