import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { settles } from './study.ts';
import { fileOf, tabOpens } from './workspace.ts';

const rows = Array.from({ length: 2000 }, (_, n) => `${(n / 200).toFixed(3)},${(1 + Math.sin(n / 7)).toFixed(4)}`);
const text = '# Made\n\n```washboard\na = load "a.csv"\nplot a\nlevels a\n```\n';

const namesIn = async (folder: vscode.Uri): Promise<string[]> =>
  (await vscode.workspace.fs.readDirectory(folder)).map(([name]) => name).sort();

describe('what the command line makes, made in an editor', () => {
  const notebook = fileOf('made', 'made.washboard.md');
  before(async () => {
    await vscode.workspace.fs.writeFile(fileOf('made', 'a.csv'), Buffer.from(`t (s),z (g)\n${rows.join('\n')}\n`));
    await vscode.workspace.fs.writeFile(notebook, Buffer.from(text));
    await vscode.commands.executeCommand('vscode.openWith', notebook, 'washboard-notebook');
  });
  after(() => vscode.workspace.fs.delete(fileOf('made'), { recursive: true }));

  it('saves the report where the user says', async () => {
    const page = fileOf('made', 'page.html');
    await vscode.commands.executeCommand('washboard.report', notebook, page);
    const written = Buffer.from(await vscode.workspace.fs.readFile(page)).toString();
    assert.match(written, /^<!DOCTYPE html>/i);
    assert.match(written, /<svg/);
  });

  it('saves the figures', async () => {
    await vscode.commands.executeCommand('washboard.figures', notebook, fileOf('made', 'figures'));
    const names = await namesIn(fileOf('made', 'figures'));
    assert.ok(names.some((name) => name.endsWith('.svg')) && names.some((name) => name.endsWith('.pdf')), names.join());
  });

  it('saves one chart in the bytes of the figures, as PDF, and as PNG of its size on paper', async function () {
    this.timeout(120_000);
    const document = await vscode.workspace.openNotebookDocument(notebook);
    await vscode.window.showNotebookDocument(document);
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
    await vscode.commands.executeCommand('notebook.execute');
    const cell = document.getCells().find(({ kind }) => kind === vscode.NotebookCellKind.Code)!;
    await settles(
      () => cell.executionSummary?.success === true,
      () => 'the cell has not run',
    );
    const shown = cell.outputs.findIndex(({ items }) =>
      items.some(({ data }) => Buffer.from(data).toString().includes('"chart"')),
    );
    const output = cell.outputs[shown].metadata?.['washboard'] as string;
    const save = async (format: string, settings = ''): Promise<Buffer> => {
      const to = fileOf('made', `picture.${format}`);
      await vscode.commands.executeCommand('washboard.savePicture', output, 0, { format, settings, to });
      return Buffer.from(await vscode.workspace.fs.readFile(to));
    };
    const [figure] = (await namesIn(fileOf('made', 'figures'))).filter((name) => name.endsWith('.svg'));
    const whole = Buffer.from(await vscode.workspace.fs.readFile(fileOf('made', 'figures', figure)));
    assert.ok((await save('svg')).equals(whole));
    assert.match((await save('pdf', 'width 85 mm')).toString('latin1'), /^%PDF-/);
    const png = await save('png', 'width 85 mm, dpi 300');
    assert.equal(png.toString('latin1', 1, 4), 'PNG');
    // 85 mm at 300 dots per inch, which are 11811 per metre.
    assert.equal(png.readUInt32BE(16), 1004);
    assert.equal(png.readUInt32BE(png.indexOf('pHYs') + 4), 11811);
    for (const to of [fileOf('made', 'a.csv'), notebook]) {
      const before = Buffer.from(await vscode.workspace.fs.readFile(to));
      await vscode.commands.executeCommand('washboard.savePicture', output, 0, { format: 'svg', settings: '', to });
      assert.ok(before.equals(Buffer.from(await vscode.workspace.fs.readFile(to))), to.path);
    }
  });

  it('writes the record, and shows beside the notebook that a figure differs from it', async () => {
    await vscode.commands.executeCommand('washboard.record', notebook);
    const record = fileOf('made', 'made.record.json');
    const before = Buffer.from(await vscode.workspace.fs.readFile(record)).toString();
    assert.match(before, /"sha256"/);
    await vscode.commands.executeCommand('washboard.verify', notebook);
    await tabOpens('Verify: made.washboard.md');
  });

  it('offers its commands as tasks', async () => {
    const tasks = await vscode.tasks.fetchTasks({ type: 'washboard' });
    assert.ok(
      tasks.some(({ name }) => name === 'verify made/made.washboard.md'),
      tasks.map(({ name }) => name).join(),
    );
  });
});
