import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { settles } from './study.ts';
import { fileOf } from './workspace.ts';

const text = '# Springs\n\n```washboard\nk = 3 N/mm\n```\n\n```washboard\nk / 4\n```\n';

describe('outputs that come back', () => {
  const uri = fileOf('restoring', 'restoring.washboard.md');
  let notebook: vscode.NotebookDocument;
  const cells = (): vscode.NotebookCell[] =>
    notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);
  const shown = (): string =>
    cells()
      .map(({ outputs }) =>
        outputs.flatMap(({ items }) => items.map(({ data }) => Buffer.from(data).toString())).join(),
      )
      .map((one) => /"text":\s*"([^"]*)"/.exec(one)?.[1] ?? '')
      .join('|');
  const write = (content: string): Thenable<void> =>
    vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(content));
  const comesTo = (wanted: string): Promise<void> =>
    settles(
      () => shown() === wanted,
      () => `${shown()} instead of ${wanted}`,
    );
  const showing = '3 N/mm|0.75 N/mm';

  before(async () => {
    await write(text);
    notebook = await vscode.workspace.openNotebookDocument(uri);
    await vscode.window.showNotebookDocument(notebook);
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
    await vscode.commands.executeCommand('notebook.execute');
    await settles(
      () => cells().every(({ executionSummary }) => executionSummary?.success === true),
      () => 'the cells have not run',
    );
  });
  after(() => vscode.commands.executeCommand('workbench.action.closeActiveEditor'));

  it('are shown again after a change on the disk, without a tick, the file as it is and clean', async () => {
    assert.equal(shown(), showing);
    const changed = text.replace('# Springs', '# Two springs\n\nMore.');
    await write(changed);
    await settles(
      () => notebook.cellAt(0).document.getText().includes('Two'),
      () => 'the notebook was not read anew',
    );
    await comesTo(showing);
    assert.equal(notebook.isDirty, false);
    assert.equal(new TextDecoder().decode(await vscode.workspace.fs.readFile(uri)), changed);
    assert.ok(cells().every(({ executionSummary }) => executionSummary?.success !== true));
  });

  it('are not shown where what they follow from has changed', async () => {
    await write(text.replace('3 N/mm', '4 N/mm'));
    await settles(
      () => cells()[0].document.getText().includes('4'),
      () => 'the notebook was not read anew',
    );
    await new Promise((resolve) => setTimeout(resolve, 3000));
    assert.equal(shown(), '|');
    await write(text);
    await comesTo(showing);
  });

  it('stay away where the user cleared them', async () => {
    await vscode.window.showNotebookDocument(notebook);
    await vscode.commands.executeCommand('notebook.clearAllCellsOutputs');
    await comesTo('|');
    await write(text.replace('# Springs', '# Springs again'));
    await settles(
      () => notebook.cellAt(0).document.getText().includes('again'),
      () => 'the notebook was not read anew',
    );
    await new Promise((resolve) => setTimeout(resolve, 3000));
    assert.equal(shown(), '|');
  });
});
