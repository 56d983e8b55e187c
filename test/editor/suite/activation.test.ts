import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';

describe('the extension in an editor', () => {
  it('is there, and wakes when a notebook of its kind opens', async () => {
    const extension = vscode.extensions.getExtension('washboard-notebooks.washboard');
    assert.ok(extension, 'not installed');
    const notebook = await vscode.workspace.openNotebookDocument('washboard-notebook', new vscode.NotebookData([]));
    assert.equal(notebook.notebookType, 'washboard-notebook');
    assert.ok(extension.isActive);
  });

  it('knows its language', async () => {
    assert.ok((await vscode.languages.getLanguages()).includes('washboard'));
  });
});
