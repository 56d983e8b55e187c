import * as vscode from 'vscode';

/** What the extension gives to others, in any host. */
interface Washboard {
  results(notebook: vscode.Uri): Promise<unknown>;
}

/** Opens the sample study, runs all of it, edits a trim, runs that and saves; tells what came of each. */
export async function studyInBrowser(tell: (name: string, told: unknown) => Promise<void>): Promise<void> {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  const uri = vscode.Uri.joinPath(folder.uri, 'three-pads.washboard.md');
  const notebook = await vscode.workspace.openNotebookDocument(uri);
  await vscode.window.showNotebookDocument(notebook);
  const extension = vscode.extensions.getExtension<Washboard>('washboard-notebooks.washboard')!;
  const washboard = await extension.activate();
  await vscode.commands.executeCommand('notebook.selectKernel', {
    id: 'washboard-kernel',
    extension: 'washboard-notebooks.washboard',
  });
  await vscode.commands.executeCommand('notebook.execute', uri);
  await tell('cells', codeCells(notebook).map(stateOf));
  await tell('results', await washboard.results(uri));

  const index = codeCells(notebook).findIndex(({ document }) => /\btrim\b/.test(document.getText()));
  const cell = codeCells(notebook)[index];
  const text = cell.document.getText();
  const literal = /\.\.\s*([\d.]+) s/.exec(text)!;
  const at = literal.index + literal[0].indexOf(literal[1]);
  const edit = new vscode.WorkspaceEdit();
  const place = new vscode.Range(cell.document.positionAt(at), cell.document.positionAt(at + literal[1].length));
  const shorter = String(Number(literal[1]) - 1);
  edit.replace(cell.document.uri, place, shorter);
  await vscode.workspace.applyEdit(edit);
  await tell('edit', { before: text, after: cell.document.getText(), kind: extension.extensionKind });
  await vscode.commands.executeCommand('notebook.cell.execute', {
    ranges: [{ start: cell.index, end: cell.index + 1 }],
    document: uri,
  });
  await tell('edited', { cell: stateOf(cell), results: await washboard.results(uri) });
  await tell('saved', await notebook.save());

  await vscode.commands.executeCommand('washboard.openSample', folder.uri);
  await tell('sample', vscode.window.activeNotebookEditor?.notebook.uri.path);

  const sample = vscode.window.activeNotebookEditor!.notebook;
  refuseWorkers();
  await vscode.commands.executeCommand('washboard.restartEngine');
  await vscode.commands.executeCommand('notebook.selectKernel', {
    id: 'washboard-kernel',
    extension: 'washboard-notebooks.washboard',
  });
  await vscode.commands.executeCommand('notebook.execute', sample.uri);
  const sharesMemory = typeof SharedArrayBuffer !== 'undefined';
  await tell('beside', {
    cells: codeCells(sample).map(stateOf),
    results: await washboard.results(sample.uri),
    sharesMemory,
  });
  await vscode.commands.executeCommand('washboard.restartEngine');
  const [first] = codeCells(sample);
  const before = first.executionSummary?.timing?.endTime;
  const running = vscode.commands.executeCommand('notebook.execute', sample.uri);
  await comesTo(() => first.executionSummary?.success === true && first.executionSummary.timing?.endTime !== before);
  await vscode.commands.executeCommand('notebook.cancelExecution');
  await running;
  await tell('besideStopped', codeCells(sample).map(stateOf));
}

/** From now on the browser makes no worker, as where a policy of the page forbids it. */
function refuseWorkers(): void {
  const refusing = function (): never {
    throw new Error('no worker may be made here');
  };
  (globalThis as { Worker?: unknown }).Worker = refusing;
}

function comesTo(holds: () => boolean): Promise<void> {
  return new Promise((done) => {
    const look = (): void => (holds() ? done() : void setTimeout(look, 5));
    look();
  });
}

const codeCells = (notebook: vscode.NotebookDocument): vscode.NotebookCell[] =>
  notebook.getCells().filter(({ kind }) => kind === vscode.NotebookCellKind.Code);

const stateOf = (cell: vscode.NotebookCell): object => ({
  success: cell.executionSummary?.success,
  mimes: [...new Set(cell.outputs.flatMap(({ items }) => items.map(({ mime }) => mime)))],
});
