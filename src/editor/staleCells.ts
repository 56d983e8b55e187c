import * as vscode from 'vscode';
import type { CellStates } from './cellStates.ts';
import type { Controller } from './controller.ts';
import { sentence } from './messages.ts';
import { languageId, notebookType } from './names.ts';
import { activeNotebook, codeCells } from './notebooks.ts';

/** In the status bar: how many cells of the shown notebook are out of date, and a click that runs them. */
export function registerStaleCells(controller: Controller, states: CellStates): vscode.Disposable {
  const item = vscode.window.createStatusBarItem('washboard.stale', vscode.StatusBarAlignment.Right, 90);
  item.name = 'Washboard';
  item.command = 'washboard.runStale';
  const show = (): void => {
    const notebook = vscode.window.activeNotebookEditor?.notebook;
    const count = notebook?.notebookType === notebookType ? staleIn(notebook, states).length : 0;
    void vscode.commands.executeCommand('setContext', 'washboard.outOfDate', count > 0);
    if (count === 0) return item.hide();
    item.text = `$(history) ${sentence('cells.stale', { count })}`;
    item.tooltip = sentence('cells.stale-run', {});
    item.show();
  };
  return vscode.Disposable.from(
    item,
    states.onDidChange(show),
    vscode.window.onDidChangeActiveNotebookEditor(show),
    vscode.commands.registerCommand('washboard.runStale', async (given?: unknown) => {
      const notebook = activeNotebook(given);
      if (notebook !== undefined) await controller.update(notebook, []);
    }),
  );
}

const staleIn = (notebook: vscode.NotebookDocument, states: CellStates): vscode.NotebookCell[] =>
  codeCells(notebook, languageId).filter((cell) => states.get(cell).stale === true);
