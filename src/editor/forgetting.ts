import * as vscode from 'vscode';
import type { EngineThreads } from './engineThreads.ts';
import { notebookType } from './names.ts';
import { runFoldersOf } from './notebooks.ts';

/** Frees the values of a notebook that was closed: recordings are large. */
export function forgetClosed(engine: EngineThreads): vscode.Disposable {
  return vscode.workspace.onDidCloseNotebookDocument((closed) => {
    if (closed.notebookType === notebookType) engine.forget(runFoldersOf(closed));
  });
}
