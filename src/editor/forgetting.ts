import * as vscode from 'vscode';
import type { EngineThread } from './engineThread.ts';
import { notebookType } from './names.ts';
import { foldersOf } from './notebooks.ts';

/** Frees the values of a folder's notebooks once the last of them is closed: recordings are large. */
export function forgetClosed(engine: EngineThread): vscode.Disposable {
  return vscode.workspace.onDidCloseNotebookDocument((closed) => {
    const folders = closed.notebookType === notebookType ? foldersOf(closed) : undefined;
    if (folders === undefined) return;
    const open = vscode.workspace.notebookDocuments.filter(
      (notebook) => notebook !== closed && notebook.notebookType === notebookType,
    );
    if (!open.some((notebook) => foldersOf(notebook)?.folder === folders.folder)) engine.clear(folders);
  });
}
