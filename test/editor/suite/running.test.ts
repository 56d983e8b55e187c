import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { fileOf, notebookComesTo } from './workspace.ts';

const outputKind = 'application/vnd.washboard.output+json';
const kindsOf = (cell: vscode.NotebookCell): string[] =>
  cell.outputs.flatMap(({ items }) => items.map(({ mime }) => mime));
const textsOf = (cell: vscode.NotebookCell): string =>
  cell.outputs
    .flatMap(({ items }) => items.filter(({ mime }) => mime === 'text/plain'))
    .map(({ data }) => Buffer.from(data).toString())
    .join('\n');

describe('running in an editor', () => {
  it('runs all cells with the kernel of this extension, and the file stays clean', async () => {
    const notebook = await vscode.workspace.openNotebookDocument(fileOf('springs.washboard.md'));
    await vscode.window.showNotebookDocument(notebook);
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
    await vscode.commands.executeCommand('notebook.execute');
    const [right, wrong] = notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);
    await notebookComesTo(() =>
      [right, wrong].every(({ executionSummary }) => executionSummary?.success !== undefined),
    );
    assert.equal(right.executionSummary?.success, true);
    assert.ok(kindsOf(right).includes(outputKind));
    // Two springs of 3 and 6 N/mm one after the other: 1 / (1/3 + 1/6) = 2 N/mm.
    assert.match(textsOf(right), /\b2(\.0+)? N\/mm/);
    assert.equal(wrong.executionSummary?.success, false);
    assert.equal(notebook.isDirty, false);
  });
});
