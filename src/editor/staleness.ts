import * as vscode from 'vscode';
import type { CellStates } from './cellStates.ts';
import type { Controller } from './controller.ts';
import { notebookType } from './names.ts';

/** Files that may be recordings. */
export const recordings = '**/*.{csv,txt,tsv,gz,dat,log,wav,parquet,uff,unv,asc}';

/** Marks outputs out of date a moment after a cell was edited, and when a raw file changed. */
export function watchStaleness(controller: Controller, states: CellStates): vscode.Disposable {
  const waiting = new Map<vscode.NotebookDocument, ReturnType<typeof setTimeout>>();
  const soon = (notebook: vscode.NotebookDocument): void => {
    clearTimeout(waiting.get(notebook));
    waiting.set(
      notebook,
      setTimeout(() => {
        waiting.delete(notebook);
        void controller.markStale(notebook);
      }, 400),
    );
  };
  const all = (): void =>
    vscode.workspace.notebookDocuments.filter((notebook) => notebook.notebookType === notebookType).forEach(soon);
  const files = vscode.workspace.createFileSystemWatcher(recordings);
  return vscode.Disposable.from(
    files,
    files.onDidChange(all),
    files.onDidCreate(all),
    files.onDidDelete(all),
    vscode.workspace.onDidChangeNotebookDocument(({ notebook, cellChanges, contentChanges }) => {
      // A cell whose outputs were cleared shows nothing that could be out of date.
      for (const { cell, outputs } of cellChanges) if (outputs?.length === 0) states.set(cell, {});
      const edited = contentChanges.length > 0 || cellChanges.some(({ document }) => document !== undefined);
      if (notebook.notebookType === notebookType && edited) soon(notebook);
    }),
    vscode.workspace.onDidCloseNotebookDocument((notebook) => clearTimeout(waiting.get(notebook))),
    { dispose: () => waiting.forEach((timer) => clearTimeout(timer)) },
  );
}
