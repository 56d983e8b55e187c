import * as vscode from 'vscode';
import type { CellStates } from './cellStates.ts';
import type { Controller } from './controller.ts';
import { sentence } from './messages.ts';
import { languageId, notebookType } from './names.ts';
import { activeNotebook, codeCells } from './notebooks.ts';
import { outOfDate, runStale, runStaleByCount } from './staleCommands.ts';

/** In the status bar and the notebook's toolbar: how many cells of the shown notebook are out of date, and a click that runs them. */
export function registerStaleCells(controller: Controller, states: CellStates): vscode.Disposable {
  const item = vscode.window.createStatusBarItem('washboard.stale', vscode.StatusBarAlignment.Right, 90);
  item.name = 'Washboard';
  item.command = runStale;
  let shown: number | undefined;
  const show = (): void => {
    const notebook = vscode.window.activeNotebookEditor?.notebook;
    const count = notebook?.notebookType === notebookType ? staleIn(notebook, states).length : 0;
    if (count === shown) return;
    shown = count;
    void vscode.commands.executeCommand('setContext', outOfDate, count);
    if (count === 0) return item.hide();
    item.text = `$(history) ${sentence('cells.stale', { count })}`;
    item.tooltip = sentence('cells.stale-run', {});
    item.show();
  };
  const run = async (given?: unknown): Promise<void> => {
    const notebook = activeNotebook(given);
    if (notebook !== undefined) await controller.update(notebook, []);
  };
  return vscode.Disposable.from(
    item,
    states.onDidChange(show),
    vscode.window.onDidChangeActiveNotebookEditor(show),
    // A cell that is taken away is out of date no longer.
    vscode.workspace.onDidChangeNotebookDocument(({ contentChanges }) => contentChanges.length > 0 && show()),
    ...[runStale, ...runStaleByCount].map((command) => vscode.commands.registerCommand(command, run)),
  );
}

const staleIn = (notebook: vscode.NotebookDocument, states: CellStates): vscode.NotebookCell[] =>
  codeCells(notebook, languageId).filter((cell) => states.get(cell).stale === true);
