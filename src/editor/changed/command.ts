import * as vscode from 'vscode';
import type { EngineThread } from '../engineThread.ts';
import { languageId, notebookType } from '../names.ts';
import { codeCells } from '../notebooks.ts';
import { revealCommand } from './page.ts';

/** The command that tells what changed since a revision, and the one that its links go by. */
export function registerChanged(engine: EngineThread): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand('washboard.changed', async (given?: unknown, revision?: unknown) => {
      const uri = given instanceof vscode.Uri ? given : vscode.window.activeNotebookEditor?.notebook.uri;
      const notebook = notebookAt(uri?.toString());
      if (notebook === undefined) return;
      const { showChanged } = await import('./show.ts');
      await showChanged(engine, notebook, typeof revision === 'string' ? revision : undefined);
    }),
    vscode.commands.registerCommand(revealCommand, reveal),
  );
}

const notebookAt = (uri: string | undefined): vscode.NotebookDocument | undefined =>
  vscode.workspace.notebookDocuments.find((one) => one.notebookType === notebookType && one.uri.toString() === uri);

/** Shows one of a notebook's cells in our language, counted from 0. */
async function reveal(uri: unknown, index: unknown): Promise<void> {
  if (typeof uri !== 'string' || typeof index !== 'number') return;
  const notebook = await vscode.workspace.openNotebookDocument(vscode.Uri.parse(uri));
  const cell = codeCells(notebook, languageId).at(index);
  const open = vscode.window.visibleNotebookEditors.find((one) => one.notebook === notebook);
  const editor = await vscode.window.showNotebookDocument(notebook, {
    viewColumn: open?.viewColumn ?? vscode.ViewColumn.One,
  });
  if (cell === undefined) return;
  const range = new vscode.NotebookRange(cell.index, cell.index + 1);
  editor.selection = range;
  editor.revealRange(range, vscode.NotebookEditorRevealType.InCenter);
}
