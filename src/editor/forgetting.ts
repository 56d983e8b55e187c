import * as vscode from 'vscode';
import type { EngineThread } from './engineThread.ts';
import { notebookType } from './names.ts';
import { placeOf } from './notebooks.ts';

/** Frees the values of a folder's notebooks once the last of them is closed: recordings are large. */
export function forgetClosed(engine: EngineThread): vscode.Disposable {
  return vscode.workspace.onDidCloseNotebookDocument((closed) => {
    if (closed.notebookType !== notebookType) return;
    const place = placeOf(closed);
    const open = vscode.workspace.notebookDocuments.filter(
      (notebook) => notebook !== closed && notebook.notebookType === notebookType,
    );
    if (!open.some((notebook) => placeOf(notebook).folder === place.folder)) engine.clear(place);
  });
}
