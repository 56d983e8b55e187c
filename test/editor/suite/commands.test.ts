import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { fileOf, tabOpens } from './workspace.ts';

const rows = [
  't (s),x (g),y (g),z (g)',
  ...Array.from({ length: 400 }, (_, i) => `${(i / 100).toFixed(2)},0.01,0.02,${1 + 0.001 * (i % 7)}`),
];
const recording = Buffer.from(rows.join('\n') + '\n');

async function textOf(uri: vscode.Uri): Promise<string> {
  return Buffer.from(await vscode.workspace.fs.readFile(uri)).toString();
}

describe('commands on recordings in an editor', () => {
  const files = ['foam-1.csv', 'foam-2.csv', 'gel-1.csv'].map((name) => fileOf('lab', 'raw', name));

  before(() => Promise.all(files.map((file) => vscode.workspace.fs.writeFile(file, recording))));
  after(() => vscode.workspace.fs.delete(fileOf('lab'), { recursive: true }));

  it('shows a first look at the files that are selected', async () => {
    await vscode.commands.executeCommand('washboard.look', files[0], files);
    await tabOpens('First look at 3 files');
  });

  it('puts the recordings of a first look into the notebook that is open, by the narrowest pattern', async () => {
    const file = fileOf('lab', 'own.washboard.md');
    await vscode.workspace.fs.writeFile(file, Buffer.from('# Own\n'));
    const notebook = await vscode.workspace.openNotebookDocument(file);
    await vscode.window.showNotebookDocument(notebook);
    await vscode.commands.executeCommand('washboard.useRecordings', files.slice(0, 2).map(String));
    assert.equal(notebook.cellAt(notebook.cellCount - 1).document.getText(), 'load "raw/foam-*.csv"');
    await notebook.save();
  });

  it('puts a load of the files that are chosen below the cell that is selected, none of what lies outside or has no name for a notebook', async () => {
    const editor = vscode.window.activeNotebookEditor!;
    editor.selection = new vscode.NotebookRange(0, 1);
    await vscode.commands.executeCommand('washboard.insertLoad', files[2], [files[2]]);
    assert.equal(editor.notebook.cellAt(1).document.getText(), 'load "raw/gel-1.csv"');
    await editor.notebook.save();
    const count = editor.notebook.cellCount;
    void vscode.commands.executeCommand('washboard.insertLoad', vscode.Uri.file('/elsewhere/a.csv'));
    void vscode.commands.executeCommand('washboard.insertLoad', fileOf('lab', 'raw', 'a"b.csv'));
    await new Promise((done) => setTimeout(done, 500));
    assert.equal(editor.notebook.cellCount, count);
  });

  it('writes a notebook beside the folder of recordings, under a name that is free', async () => {
    await vscode.commands.executeCommand('washboard.notebookFromFiles', files[0], files);
    const text = await textOf(fileOf('lab', 'study.washboard.md'));
    assert.match(text, /^foam = load "raw\/foam-\*\.csv"$/m);
    assert.match(text, /^gel = load "raw\/gel-1\.csv"$/m);
    await vscode.commands.executeCommand('washboard.notebookFromFiles', files[0], files);
    assert.equal(await textOf(fileOf('lab', 'study-2.washboard.md')), text);
    assert.equal(vscode.window.activeNotebookEditor?.notebook.uri.path.endsWith('study-2.washboard.md'), true);
  });

  it('writes a notebook from all recordings of a folder that is chosen', async () => {
    await vscode.commands.executeCommand('washboard.notebookFromFiles', fileOf('lab', 'raw'));
    const text = await textOf(fileOf('lab', 'study-3.washboard.md'));
    assert.match(text, /compare foam_density with gel_density/);
  });

  it('begins a new study as a file in the folder that is chosen, without a question', async () => {
    await vscode.commands.executeCommand('washboard.newNotebook', fileOf('lab'));
    const text = await textOf(fileOf('lab', 'study-4.washboard.md'));
    assert.match(text, /^foam = load "raw\/foam-\*\.csv"$/m);
    const shown = vscode.window.activeNotebookEditor?.notebook;
    assert.equal(shown?.uri.path.endsWith('study-4.washboard.md'), true);
    assert.equal(shown?.isUntitled, false);
  });

  it('runs what needs no file in a notebook that is not saved, and shows one sentence without a stack for the rest', async () => {
    const cell = (text: string): vscode.NotebookCellData =>
      new vscode.NotebookCellData(vscode.NotebookCellKind.Code, text, 'washboard');
    const notebook = await vscode.workspace.openNotebookDocument(
      'washboard-notebook',
      new vscode.NotebookData([cell('a = 3 N/mm'), cell('b = load "raw/a.csv"')]),
    );
    await vscode.window.showNotebookDocument(notebook);
    await vscode.commands.executeCommand('notebook.execute');
    const shown = (): string =>
      notebook
        .getCells()
        .map((one) => one.outputs.flatMap(({ items }) => items.map(({ data }) => Buffer.from(data).toString())).join())
        .join('\n');
    for (let tries = 0; tries < 100 && !shown().includes('saved'); tries++)
      await new Promise((done) => setTimeout(done, 100));
    assert.match(shown(), /raw files need a saved notebook/);
    assert.doesNotMatch(shown(), /\bat \S+ \(|\.cjs|\.mjs/);
    assert.equal(notebook.getCells()[0].executionSummary?.success, true);
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  });

  it('writes a run sheet once, and opens it the next time', async () => {
    await vscode.commands.executeCommand('washboard.writeSheet', fileOf('lab', 'raw'));
    const sheet = fileOf('lab', 'raw', 'runs.csv');
    assert.match(await textOf(sheet), /^foam-1\.csv,foam,/m);
    await vscode.workspace.fs.writeFile(sheet, Buffer.from('mine\n'));
    await vscode.commands.executeCommand('washboard.writeSheet', fileOf('lab', 'raw'));
    assert.equal(await textOf(sheet), 'mine\n');
  });
});
