import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { fileOf } from './workspace.ts';

const bytesOf = async (uri: vscode.Uri): Promise<Buffer> => Buffer.from(await vscode.workspace.fs.readFile(uri));

async function edit(notebook: vscode.NotebookDocument, ...edits: vscode.NotebookEdit[]): Promise<void> {
  const change = new vscode.WorkspaceEdit();
  change.set(notebook.uri, edits);
  assert.ok(await vscode.workspace.applyEdit(change), 'the editor took the edit');
}

describe('opening and saving in an editor', () => {
  it('changes no byte of any nasty file, even after a cell was put in and taken out again', async function () {
    this.timeout(180_000);
    const folder = fileOf('nasty');
    const names = (await vscode.workspace.fs.readDirectory(folder))
      .map(([name]) => name)
      .filter((name) => name.endsWith('.washboard.md'));
    assert.ok(names.length >= 30, `${names.length} files`);
    for (const name of names) {
      const uri = vscode.Uri.joinPath(folder, name);
      const before = await bytesOf(uri);
      const notebook = await vscode.workspace.openNotebookDocument(uri);
      const cell = new vscode.NotebookCellData(vscode.NotebookCellKind.Code, 'x = 1 s', 'washboard');
      const count = notebook.cellCount;
      await edit(notebook, vscode.NotebookEdit.insertCells(count, [cell]));
      assert.ok(notebook.isDirty, name);
      await notebook.save();
      assert.notDeepEqual(await bytesOf(uri), before, `${name} with one more cell`);
      await edit(notebook, vscode.NotebookEdit.deleteCells(new vscode.NotebookRange(count, count + 1)));
      await notebook.save();
      assert.ok(!notebook.isDirty, name);
      assert.deepEqual((await bytesOf(uri)).toString('latin1'), before.toString('latin1'), name);
    }
  });

  it('refuses a file with marks of a merge and one that is not UTF-8, and leaves them alone', async () => {
    for (const name of ['conflict', 'latin-1']) {
      const uri = fileOf('refused', `${name}.washboard.md`);
      const before = await bytesOf(uri);
      await assert.rejects(async () => vscode.workspace.openNotebookDocument(uri), /Line \d+/, name);
      assert.deepEqual(await bytesOf(uri), before, name);
    }
  });

  it('writes an edited cell and nothing else', async () => {
    const uri = fileOf('nasty', 'crlf.washboard.md');
    const before = await bytesOf(uri);
    const notebook = await vscode.workspace.openNotebookDocument(uri);
    const cell = notebook.getCells().find(({ kind }) => kind === vscode.NotebookCellKind.Code)!;
    const change = new vscode.WorkspaceEdit();
    change.replace(cell.document.uri, new vscode.Range(0, 4, 0, 5), '7');
    assert.ok(await vscode.workspace.applyEdit(change));
    await notebook.save();
    assert.equal((await bytesOf(uri)).toString(), before.toString().replace('a = 1 s', 'a = 7 s'));
  });
});
