import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { commitAll, gitIn } from '../../disk/git.ts';
import { loadPads, pads, worked } from '../../verbs/pads.ts';
import { projectFolder, Workbench, type Theme } from '../harness.ts';

const cells = `${loadPads}C = compare foam with gel over 10..30 Hz`;
const claim = 'K = claim C reduction 5 %';
const text = `# A study\n\n\`\`\`washboard\n${cells}\n\`\`\`\n\n\`\`\`washboard\n${claim}\n\`\`\`\n`;

describe('what changed since a commit, in a served editor', function () {
  let workbench: Workbench;

  before(async () => {
    workbench = await Workbench.open({ files: { 'ride.washboard.md': text, ...pads(worked) } });
    const { folder } = workbench;
    gitIn(folder, 'init', '-q');
    execFileSync(process.execPath, [
      join(projectFolder, 'dist', 'washboard.mjs'),
      'record',
      join(folder, 'ride.washboard.md'),
    ]);
    commitAll(folder, 1_700_000_000);
  });
  after(async () => workbench?.close());

  /** The page, whose frame came after the notebook's. */
  const changedPage = () =>
    workbench.page.locator('iframe.webview.ready').last().contentFrame().locator('iframe#active-frame').contentFrame();

  it('is a page beside the notebook, verdicts first, with the text as it stands in the editor', async () => {
    const notebook = await workbench.openNotebook('ride.washboard.md');
    await notebook.editCell(2, claim.replace('5 %', '90 %'));
    await workbench.command('What Changed Since');
    await workbench.page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'HEAD' }).first().waitFor();
    await workbench.page.keyboard.press('Enter');
    await workbench.page.locator('.tab').filter({ hasText: 'What changed: ride' }).waitFor();
    const body = changedPage();
    await body.getByRole('heading', { name: 'Verdicts' }).waitFor();
    const headings = await body.getByRole('heading').allTextContents();
    assert.deepEqual(headings.slice(0, 2), ['What changed in ride.washboard.md', 'Verdicts']);
    assert.match(
      (await body.locator('tbody tr').first().textContent()) ?? '',
      /^K\.verdictcell 3"supported""(contradicted|not shown)"/,
    );
    assert.match(
      (await body.locator('p').first().textContent()) ?? '',
      /ride\.record\.json at HEAD \([0-9a-f]{10} of 2023-11-14\)/,
    );
  });

  it('is readable in every theme', async () => {
    for (const theme of ['dark', 'high-contrast', 'high-contrast-light', 'light'] satisfies Theme[]) {
      await workbench.theme(theme, changedPage());
      await workbench.screenshot(join(projectFolder, 'out', 'screenshots', `changed-${theme}.png`));
    }
  });

  it('leads from a value to its cell', async () => {
    await changedPage().getByRole('link', { name: 'K.verdict' }).click();
    const cell = workbench.page.locator('.notebookOverlay .monaco-list-row.focused');
    await cell.filter({ hasText: 'claim C reduction' }).waitFor();
    assert.deepEqual(workbench.errors, []);
  });
});
