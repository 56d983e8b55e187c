import { strict as assert } from 'node:assert';
import { gzipSync } from 'node:zlib';
import * as vscode from 'vscode';
import { recording } from '../../engine/memoryFiles.ts';
import { MemoryFolder } from './memoryFolder.ts';
import { settles } from './study.ts';

const scheme = 'washboard-memory';
const at = (path: string): vscode.Uri => vscode.Uri.from({ scheme, path });
const fence = (text: string): string => `\`\`\`washboard\n${text}\n\`\`\`\n`;
const textOf = (cell: vscode.NotebookCell): string =>
  cell.outputs
    .flatMap(({ items }) => items.filter(({ mime }) => mime === 'text/plain'))
    .map(({ data }) => Buffer.from(data).toString())
    .join('\n');
const cellsOf = (notebook: vscode.NotebookDocument): vscode.NotebookCell[] =>
  notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);

describe('a study that lies on no disk of this machine', function () {
  this.timeout(120_000);
  const folder = new MemoryFolder();
  let registered: vscode.Disposable;

  before(() => {
    registered = vscode.workspace.registerFileSystemProvider(scheme, folder, { isCaseSensitive: true });
    folder.writeFile(at('/study/raw/before.csv'), Buffer.from(recording({ seed: 1 })));
    folder.writeFile(at('/study/raw/after.csv.gz'), gzipSync(recording({ seed: 2 })));
    folder.writeFile(at('/other/beside.csv'), Buffer.from(recording({ seed: 3 })));
  });
  after(async () => {
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
    registered.dispose();
  });

  async function opened(name: string): Promise<vscode.NotebookDocument> {
    const notebook = await vscode.workspace.openNotebookDocument(at(`/study/${name}`));
    await vscode.window.showNotebookDocument(notebook);
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
    return notebook;
  }

  async function run(notebook: vscode.NotebookDocument, ...wanted: readonly number[]): Promise<void> {
    const ranges = wanted.map((index) => {
      const cell = cellsOf(notebook)[index];
      return { start: cell.index, end: cell.index + 1 };
    });
    await vscode.commands.executeCommand('notebook.cell.execute', { ranges, document: notebook.uri });
  }

  it('reads its recordings, packed ones too, and nothing beside its folder', async () => {
    const cells = ['b = load "raw/before.csv" | trim 2..18 s', 'levels b', 'levels (load "raw/after.csv.gz")'];
    const text = `# Elsewhere\n\n${[...cells, 'load "../other/beside.csv"'].map(fence).join('\n')}`;
    folder.writeFile(at('/study/ride.washboard.md'), Buffer.from(text));
    const notebook = await opened('ride.washboard.md');
    await run(notebook, 0, 1, 2, 3);
    const states = (): (boolean | undefined)[] =>
      cellsOf(notebook).map(({ executionSummary }) => executionSummary?.success);
    await settles(
      () => states().every((state) => state !== undefined),
      () => JSON.stringify(states()),
    );
    assert.deepEqual(states(), [true, true, true, false], cellsOf(notebook).map(textOf).join('\n'));
    assert.match(textOf(cellsOf(notebook)[3]), /\.\.\/other\/beside\.csv/);
    assert.equal(notebook.isDirty, false);
  });

  it('runs an edited trim anew with what depends on it, and saves that edit alone', async () => {
    const notebook = await opened('ride.washboard.md');
    const [trimmed, levels] = cellsOf(notebook);
    const before = textOf(levels);
    assert.notEqual(before, '');
    const endOf = ({ executionSummary }: vscode.NotebookCell): number | undefined => executionSummary?.timing?.endTime;
    const ended = endOf(levels);
    const edit = new vscode.WorkspaceEdit();
    const from = trimmed.document.getText().indexOf('18 s');
    edit.replace(trimmed.document.uri, new vscode.Range(0, from, 0, from + 2), '9');
    await vscode.workspace.applyEdit(edit);
    await run(notebook, 0);
    // An output may be there before its run has ended, and the editor refuses to save a notebook that changes meanwhile.
    await settles(
      () =>
        textOf(levels) !== before &&
        levels.executionSummary?.success === true &&
        endOf(levels) !== undefined &&
        endOf(levels) !== ended,
      () => textOf(levels),
    );
    const text = Buffer.from(folder.readFile(notebook.uri)).toString();
    const { version } = notebook;
    const saved = await notebook.save();
    assert.ok(saved, `dirty: ${notebook.isDirty}, version ${version} before and ${notebook.version} after the save`);
    assert.equal(Buffer.from(folder.readFile(notebook.uri)).toString(), text.replace('2..18 s', '2..9 s'));
  });

  it('gives its results, and begins a notebook from its files', async () => {
    const { results } = vscode.extensions.getExtension<{ results(notebook: vscode.Uri): Promise<unknown> }>(
      'washboard-notebooks.washboard',
    )!.exports;
    assert.match(JSON.stringify(await results(at('/study/ride.washboard.md'))), /raw\/after\.csv\.gz/);
    await vscode.commands.executeCommand('washboard.notebookFromFiles', at('/study/raw'));
    const written = Buffer.from(folder.readFile(at('/study/raw/study.washboard.md'))).toString();
    assert.match(written, /load "before\.csv"/);
  });
});
