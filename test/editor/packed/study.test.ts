import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { recording } from '../../engine/memoryFiles.ts';
import { fileOf, notebookComesTo, tabOpens } from '../suite/workspace.ts';

const extension = (): vscode.Extension<unknown> => vscode.extensions.getExtension('washboard-notebooks.washboard')!;

const textOf = async (...path: string[]): Promise<string> =>
  Buffer.from(await vscode.workspace.fs.readFile(fileOf(...path))).toString();

const codeCells = (notebook: vscode.NotebookDocument): vscode.NotebookCell[] =>
  notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);

const shownBy = ({ outputs }: vscode.NotebookCell): string =>
  outputs
    .flatMap(({ items }) => items.filter(({ mime }) => mime === 'text/plain'))
    .map(({ data }) => Buffer.from(data).toString())
    .join('\n');

const write = (path: string, text: string): Thenable<void> =>
  vscode.workspace.fs.writeFile(fileOf('raw', path), Buffer.from(text));

describe('a study with the installed package', function () {
  this.timeout(180_000);
  let notebook: vscode.NotebookDocument;

  before(async () => {
    for (const run of [1, 2, 3, 4, 5]) {
      await write(`before-${run}.csv`, recording({ seed: run, level: 1 }));
      await write(`after-${run}.csv`, recording({ seed: 10 + run, level: 0.5 }));
    }
  });

  it('is of the package, and of nothing else', () => {
    assert.match(extension().extensionPath, /extensions[\\/]washboard-notebooks\.washboard-\d/);
  });

  it('begins from a folder of recordings', async () => {
    await vscode.commands.executeCommand('washboard.newNotebook');
    await tabOpens('study.washboard.md');
    notebook = vscode.window.activeNotebookEditor!.notebook;
    assert.match(await textOf('study.washboard.md'), /load "raw\/before-\*\.csv"/);
  });

  it('runs as it stands to a comparison and a verdict on its claim', async () => {
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
    await vscode.commands.executeCommand('notebook.execute', notebook.uri);
    await notebookComesTo(() =>
      codeCells(notebook).every(({ executionSummary }) => executionSummary?.success !== undefined),
    );
    const failed = codeCells(notebook).filter(({ executionSummary }) => executionSummary?.success === false);
    assert.deepEqual(failed.map(shownBy), []);
    assert.match(codeCells(notebook).map(shownBy).join('\n'), /\b(supported|contradicted|not shown)\b/i);
  });

  it('is saved as a report, with its charts, and as figures', async () => {
    await vscode.commands.executeCommand('washboard.report', notebook.uri, fileOf('study.html'));
    const page = await textOf('study.html');
    assert.match(page, /^<!DOCTYPE html>/i);
    assert.match(page, /<svg/);
    await vscode.commands.executeCommand('washboard.figures', notebook.uri, fileOf('figures'));
    const names = (await vscode.workspace.fs.readDirectory(fileOf('figures'))).map(([name]) => name);
    for (const type of ['.svg', '.pdf'])
      assert.ok(
        names.some((name) => name.endsWith(type)),
        names.join(),
      );
  });

  it('is held to its record: what changed is told on a page and by the command line of the package', async () => {
    await vscode.commands.executeCommand('washboard.record', notebook.uri);
    const verify = (): { status: number | null; stdout: string; stderr: string } =>
      spawnSync(
        process.execPath,
        [join(extension().extensionPath, 'dist', 'washboard.mjs'), 'verify', fileOf('study.washboard.md').fsPath],
        { encoding: 'utf8', env: { ...process.env, ELECTRON_RUN_AS_NODE: '1' } },
      );
    const same = verify();
    assert.equal(same.status, 0, same.stdout + same.stderr);
    await write('before-1.csv', recording({ seed: 99, level: 1.4 }));
    await vscode.commands.executeCommand('washboard.verify', notebook.uri);
    await tabOpens('Verify: study.washboard.md');
    const other = verify();
    assert.equal(other.status, 1, other.stderr);
    const [told] = other.stdout.split('before_density');
    assert.match(told, /reduction_percent: recorded [\d.]+, now [\d.]+/);
    assert.match(told, /raw\/before-1\.csv: the file has changed/);
  });
});
