import * as vscode from 'vscode';
import type { EngineThread } from './engineThread.ts';
import { notebookType } from './names.ts';
import { placeOf } from './place.ts';

/** Frees the values of a folder's notebooks once the last of them is closed: recordings are large. */
export function forgetClosed(engine: EngineThread): vscode.Disposable {
  return vscode.workspace.onDidCloseNotebookDocument((closed) => {
    const place = closed.notebookType === notebookType ? placeOf(closed) : undefined;
    if (place === undefined) return;
    const open = vscode.workspace.notebookDocuments.filter(
      (notebook) => notebook !== closed && notebook.notebookType === notebookType,
    );
    if (!open.some((notebook) => placeOf(notebook)?.folder === place.folder)) engine.clear(place);
  });
}
