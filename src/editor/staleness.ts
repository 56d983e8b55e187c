import * as vscode from 'vscode';
import type { CellStates } from './cellStates.ts';
import type { Controller } from './controller.ts';
import { languageId, notebookType } from './names.ts';
import { codeCells } from './notebooks.ts';

/** Files that may be recordings. */
export const recordings = '**/*.{csv,txt,tsv,gz,dat,log,wav,parquet,uff,unv,asc}';

/** Pauses after an edit, in ms: then outputs are marked, and then, if the user wants it, what is out of date runs. */
const pauses = { mark: 400, run: 1200 };

/** Marks outputs out of date a moment after a cell was edited, and when a raw file changed. */
export function watchStaleness(controller: Controller, states: CellStates): vscode.Disposable {
  const waiting = new Map<vscode.NotebookDocument, ReturnType<typeof setTimeout>>();
  const soon = (notebook: vscode.NotebookDocument, then?: () => void): void => {
    clearTimeout(waiting.get(notebook));
    waiting.set(
      notebook,
      setTimeout(() => {
        waiting.delete(notebook);
        void controller.markStale(notebook);
        if (then !== undefined) waiting.set(notebook, setTimeout(then, pauses.run - pauses.mark));
      }, pauses.mark),
    );
  };
  const run = (notebook: vscode.NotebookDocument) => (): void => {
    waiting.delete(notebook);
    if (isWanted(notebook) && canRun(notebook, states)) void controller.update(notebook, []);
  };
  const all = (): void =>
    vscode.workspace.notebookDocuments
      .filter((notebook) => notebook.notebookType === notebookType)
      .forEach((notebook) => soon(notebook));
  const files = vscode.workspace.createFileSystemWatcher(recordings);
  return vscode.Disposable.from(
    files,
    files.onDidChange(all),
    files.onDidCreate(all),
    files.onDidDelete(all),
    vscode.workspace.onDidChangeNotebookDocument(({ notebook, cellChanges, contentChanges }) => {
      const edited = contentChanges.length > 0 || cellChanges.some(({ document }) => document !== undefined);
      if (notebook.notebookType === notebookType && edited)
        soon(notebook, isWanted(notebook) ? run(notebook) : undefined);
    }),
    vscode.workspace.onDidCloseNotebookDocument((notebook) => clearTimeout(waiting.get(notebook))),
    { dispose: () => waiting.forEach((timer) => clearTimeout(timer)) },
  );
}

const isWanted = ({ uri }: vscode.NotebookDocument): boolean =>
  vscode.workspace.getConfiguration('washboard', uri).get<boolean>('runAfterEdit', false);

/** Whether something is out of date, and no cell that is can't be read: it may not be written to its end. */
function canRun(notebook: vscode.NotebookDocument, states: CellStates): boolean {
  const stale = codeCells(notebook, languageId).filter((cell) => states.get(cell).stale === true);
  const fails = ({ document }: vscode.NotebookCell): boolean =>
    vscode.languages.getDiagnostics(document.uri).some(({ severity }) => severity === vscode.DiagnosticSeverity.Error);
  return stale.length > 0 && !stale.some(fails);
}
