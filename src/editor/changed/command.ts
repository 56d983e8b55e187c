import * as vscode from 'vscode';
import type { EngineThreads } from '../engineThreads.ts';
import { languageId } from '../names.ts';
import { activeNotebook, codeCells } from '../notebooks.ts';
import { revealCommand } from './page.ts';

/** The commands that hold a notebook against its record, in git or on the disk, and the one that their links go by. */
export function registerChanged(engine: EngineThreads): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand('washboard.changed', async (given?: unknown, revision?: unknown) => {
      const notebook = activeNotebook(given);
      if (notebook === undefined) return;
      const { showChanged } = await import('./show.ts');
      await showChanged(engine, notebook, typeof revision === 'string' ? revision : undefined);
    }),
    vscode.commands.registerCommand('washboard.verify', async (given?: unknown) => {
      const notebook = activeNotebook(given);
      if (notebook !== undefined) await (await import('./show.ts')).showVerified(engine, notebook);
    }),
    vscode.commands.registerCommand(revealCommand, reveal),
  );
}

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
