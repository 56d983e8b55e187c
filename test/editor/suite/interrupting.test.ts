import { strict as assert } from 'node:assert';
import * as vscode from 'vscode';
import { fileOf, notebookComesTo } from './workspace.ts';

const longFiles = ['long-1.csv', 'long-2.csv', 'long-3.csv'];

/** Some 45 MB of rows each: several seconds of reading, so that a busy machine still asks in time. */
async function writeLongRecordings(): Promise<void> {
  const rows = ['t (s),x (g),y (g),z (g)'];
  for (let i = 0; i < 1_500_000; i++) rows.push(`${(i / 1000).toFixed(3)},0.${i % 997},0.${i % 991},1.${i % 983}`);
  const [first, ...copies] = longFiles.map((file) => fileOf(file));
  await vscode.workspace.fs.writeFile(first, Buffer.from(rows.join('\n') + '\n'));
  for (const copy of copies) await vscode.workspace.fs.copy(first, copy);
}

const codeCells = (notebook: vscode.NotebookDocument): vscode.NotebookCell[] =>
  notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);

const textOf = (cell: vscode.NotebookCell): string =>
  cell.outputs
    .flatMap(({ items }) => items.filter(({ mime }) => mime === 'text/plain'))
    .map(({ data }) => Buffer.from(data).toString())
    .join('\n');

describe('stopping and dependents in an editor', function () {
  this.timeout(120_000);
  let notebook: vscode.NotebookDocument;

  before(async () => {
    await writeLongRecordings();
    const fence = (text: string): string => `\`\`\`washboard\n${text}\n\`\`\`\n`;
    const cells = ['stiff = 3 N/mm', 'sag = 6 N / stiff in mm', 'load "long-*.csv"', 'levels (load "long-*.csv")'];
    await vscode.workspace.fs.writeFile(fileOf('stop.washboard.md'), Buffer.from(cells.map(fence).join('\n')));
    notebook = await vscode.workspace.openNotebookDocument(fileOf('stop.washboard.md'));
    await vscode.window.showNotebookDocument(notebook);
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
  });
  after(() => Promise.all(longFiles.map((file) => vscode.workspace.fs.delete(fileOf(file)))));

  const execute = (index: number): Thenable<unknown> => {
    const { index: at } = codeCells(notebook)[index];
    return vscode.commands.executeCommand('notebook.cell.execute', {
      ranges: [{ start: at, end: at + 1 }],
      document: notebook.uri,
    });
  };

  it('runs a cell again whose input has changed, when that input is run', async () => {
    await execute(0);
    await execute(1);
    await notebookComesTo(() => codeCells(notebook)[1].executionSummary?.success === true);
    assert.match(textOf(codeCells(notebook)[1]), /\b2 mm/);
    const edit = new vscode.WorkspaceEdit();
    const { document } = codeCells(notebook)[0];
    edit.replace(document.uri, new vscode.Range(0, 0, 0, document.lineAt(0).text.length), 'stiff = 4 N/mm');
    await vscode.workspace.applyEdit(edit);
    await execute(0);
    await notebookComesTo(() => /1\.5 mm/.test(textOf(codeCells(notebook)[1])));
  });

  it('runs the cells that are out of date', async () => {
    const [first, dependent] = codeCells(notebook);
    const settings = vscode.workspace.getConfiguration('washboard', notebook.uri);
    await settings.update('updateDependents', false, vscode.ConfigurationTarget.Workspace);
    const edit = new vscode.WorkspaceEdit();
    edit.replace(first.document.uri, new vscode.Range(0, 0, 0, first.document.lineAt(0).text.length), 'stiff = 6 N/mm');
    await vscode.workspace.applyEdit(edit);
    await execute(0);
    await notebookComesTo(() => first.executionSummary?.success === true);
    assert.match(textOf(dependent), /1\.5 mm/);
    // The mark comes a moment after the run, later on a busy machine.
    for (let tries = 0; tries < 100 && !/\b1 mm/.test(textOf(dependent)); tries++) {
      await vscode.commands.executeCommand('washboard.runStale', notebook.uri);
      await new Promise((done) => setTimeout(done, 300));
    }
    assert.match(textOf(dependent), /\b1 mm/);
    await settings.update('updateDependents', undefined, vscode.ConfigurationTarget.Workspace);
  });

  it('stops a long reading when asked, shows nothing half-made, and goes on working', async () => {
    const [, , long, after] = codeCells(notebook);
    void execute(2);
    void execute(3);
    // As soon as it has begun, however fast the machine reads.
    await notebookComesTo(() => long.executionSummary?.executionOrder !== undefined);
    await vscode.commands.executeCommand('notebook.cancelExecution');
    await notebookComesTo(
      () => long.executionSummary?.timing?.endTime !== undefined || long.executionSummary?.success !== undefined,
    );
    assert.notEqual(long.executionSummary?.success, true);
    assert.deepEqual(long.outputs, []);
    assert.deepEqual(after.outputs, []);
    await execute(0);
    await notebookComesTo(() => codeCells(notebook)[0].executionSummary?.success === true);
  });

  it('runs a cell of another notebook meanwhile', async () => {
    const [, , long] = codeCells(notebook);
    const beside = fileOf('beside.washboard.md');
    await vscode.workspace.fs.writeFile(beside, Buffer.from('```washboard\n2 N/mm\n```\n'));
    const other = await vscode.workspace.openNotebookDocument(beside);
    await vscode.window.showNotebookDocument(other);
    await vscode.commands.executeCommand('notebook.selectKernel', {
      id: 'washboard-kernel',
      extension: 'washboard-notebooks.washboard',
    });
    const order = long.executionSummary?.executionOrder ?? 0;
    const running = execute(2);
    await notebookComesTo(() => (long.executionSummary?.executionOrder ?? 0) > order);
    const [short] = codeCells(other);
    const ranges = [{ start: short.index, end: short.index + 1 }];
    await vscode.commands.executeCommand('notebook.cell.execute', { ranges, document: other.uri });
    await notebookComesTo(() => short.executionSummary?.success === true);
    assert.deepEqual(long.outputs, [], 'it waited for the long reading');
    await vscode.window.showNotebookDocument(notebook);
    await vscode.commands.executeCommand('notebook.cancelExecution');
    await running;
  });

  it('restarts: what runs and what waits ends without an error, and counting begins anew', async () => {
    const [, , long, after] = codeCells(notebook);
    const ended = (cell: vscode.NotebookCell): boolean => cell.executionSummary?.timing?.endTime !== undefined;
    const before = long.executionSummary?.timing?.startTime ?? 0;
    void execute(2);
    void execute(3);
    await notebookComesTo(() => (long.executionSummary?.timing?.startTime ?? 0) > before || !ended(long));
    await vscode.commands.executeCommand('washboard.restartEngine');
    await notebookComesTo(() => long.executionSummary?.success === undefined);
    for (const cell of [long, after]) assert.deepEqual(cell.outputs, []);
    await execute(0);
    await notebookComesTo(() => codeCells(notebook)[0].executionSummary?.success === true);
    assert.equal(codeCells(notebook)[0].executionSummary?.executionOrder, 1);
  });

  it('restarts and runs all: every cell runs anew, and counts from 1', async () => {
    const edit = new vscode.WorkspaceEdit();
    const long = codeCells(notebook).slice(2);
    const whole = new vscode.NotebookRange(long[0].index, notebook.cellCount);
    edit.set(notebook.uri, [vscode.NotebookEdit.deleteCells(whole)]);
    await vscode.workspace.applyEdit(edit);
    await vscode.window.showNotebookDocument(notebook);
    const started = (): (number | undefined)[] =>
      codeCells(notebook).map(({ executionSummary }) => executionSummary?.timing?.startTime);
    const before = started();
    await vscode.commands.executeCommand('washboard.restartAndRunAll', notebook.uri);
    await notebookComesTo(() =>
      codeCells(notebook).every(
        ({ executionSummary }, at) =>
          executionSummary?.success === true && executionSummary.timing?.startTime !== before[at],
      ),
    );
    assert.deepEqual(
      codeCells(notebook).map(({ executionSummary }) => executionSummary?.executionOrder),
      [1, 2],
    );
    assert.match(textOf(codeCells(notebook)[1]), /\d mm/);
  });
});
