import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { recording } from '../../engine/memoryFiles.ts';
import { until, Workbench, type OpenNotebook } from '../harness.ts';

const file = 'ride.washboard.md';
const fence = (text: string): string => `\`\`\`washboard\n${text}\n\`\`\`\n\n`;
const cells = ['ride = load "raw/*.csv" | channel z | trim 2..18 s', 'plot ride', 'levels ride'];
const text = `# A ride\n\n${cells.map(fence).join('')}`;
const files = { [file]: text, 'raw/a.csv': recording({ seed: 1 }), 'raw/b.csv': recording({ seed: 2, level: 0.4 }) };

describe('a notebook whose other version is checked out, in a served editor', function () {
  let workbench: Workbench;
  let notebook: OpenNotebook;
  const git = (...given: readonly string[]): string => {
    const author = ['-c', 'user.name=a', '-c', 'user.email=a@example.org', '-c', 'core.autocrlf=false'];
    return execFileSync('git', [...author, ...given], { cwd: workbench.folder, encoding: 'utf8', stdio: 'pipe' });
  };

  before(async () => {
    workbench = await Workbench.open({ files, theme: 'light', settings: { 'editor.inlayHints.enabled': 'off' } });
    git('init', '--initial-branch=narrow');
    git('add', file);
    git('commit', '--message=narrow');
    git('checkout', '-b', 'wide');
    writeFileSync(join(workbench.folder, file), text.replace('2..18', '1..19'));
    git('commit', '--all', '--message=wide');
    git('checkout', 'narrow');
    notebook = await workbench.openNotebook(file);
    await notebook.runAll();
    for (const at of [1, 2, 3]) assert.equal(await notebook.ended(at), 'success');
  });
  after(async () => workbench?.close());

  it('shows its results again when it is back, without a run, a tick or a change', async () => {
    const charts = notebook.outputs().locator('.washboard-drawing svg');
    // What a run has just given is being kept still.
    await new Promise((resolve) => setTimeout(resolve, 3000));
    git('checkout', 'wide');
    await until(async () => (await notebook.textOf(1)).includes('trim 1..19 s'), 'the other version');
    await notebook.reveal(2);
    await until(async () => (await charts.count()) === 0, 'no charts, as this version was never run');
    git('checkout', 'narrow');
    await until(async () => (await notebook.textOf(1)) === cells[0], 'the first version');
    await notebook.reveal(2);
    await until(async () => (await charts.count()) > 0, 'a chart that is back');
    const row = await notebook.reveal(3);
    await row.locator('.cell-status-item').filter({ hasText: 'From an earlier run' }).waitFor();
    assert.equal(await row.locator('.codicon-notebook-state-success').count(), 0);
    assert.equal(await workbench.page.locator('.tab.active.dirty').count(), 0);
    assert.equal(git('status', '--porcelain', file), '');
    assert.deepEqual(workbench.errors, []);
  });
});
