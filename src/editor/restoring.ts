import * as vscode from 'vscode';
import type { CellStates } from './cellStates.ts';
import type { Controller } from './controller.ts';
import type { KeptOutputs } from './keptOutputs.ts';
import { notebookType } from './names.ts';
import { shownKey } from './settings.ts';

/** Pause after a change on the disk, which comes in several steps, in ms. */
const pause = 250;

/**
 * Has outputs shown again when a notebook is opened, or was read anew from the disk, which takes all of them away. What
 * the user cleared stays cleared, then and later.
 */
export function registerRestoring(
  controller: Controller,
  states: CellStates,
  kept: () => Promise<KeptOutputs>,
): vscode.Disposable {
  const waiting = new Map<vscode.NotebookDocument, ReturnType<typeof setTimeout>>();
  const soon = (notebook: vscode.NotebookDocument): void => {
    if (notebook.notebookType !== notebookType) return;
    clearTimeout(waiting.get(notebook));
    waiting.set(
      notebook,
      setTimeout(() => {
        waiting.delete(notebook);
        void controller.restore(notebook);
      }, pause),
    );
  };
  vscode.workspace.notebookDocuments.forEach(soon);
  return vscode.Disposable.from(
    controller.onDidSelect(soon),
    vscode.workspace.onDidOpenNotebookDocument(soon),
    vscode.workspace.onDidChangeNotebookDocument(({ notebook, contentChanges, cellChanges }) => {
      if (notebook.notebookType !== notebookType) return;
      const emptied = cellChanges.filter(({ outputs }) => outputs?.length === 0);
      // A reading from the disk takes outputs away together with the cells or their metadata; the user takes them alone.
      const isRead = contentChanges.length > 0 || emptied.some(({ metadata }) => metadata !== undefined);
      for (const { cell } of emptied) {
        const { key } = states.get(cell);
        if (!isRead && key !== undefined) void kept().then((store) => store.forget(shownKey(key, notebook)));
        // A cell whose outputs were cleared shows nothing that could be out of date.
        states.set(cell, {});
      }
      if (isRead && !notebook.isDirty) soon(notebook);
    }),
    vscode.workspace.onDidCloseNotebookDocument((notebook) => clearTimeout(waiting.get(notebook))),
    { dispose: () => waiting.forEach((timer) => clearTimeout(timer)) },
  );
}
