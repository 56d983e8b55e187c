import * as vscode from 'vscode';
import type { Controller } from './controller.ts';
import { languageId, notebookType } from './names.ts';

const starter = `# Question: did the change make a difference, in which band, by how much?
# Put the logger's files beside this notebook, and name them here.
before = load "raw/before-*.csv"
`;

/** Commands of the palette and the notebook's toolbar. */
export function registerCommands(controller: Controller): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand('washboard.newNotebook', newNotebook),
    vscode.commands.registerCommand('washboard.restartEngine', async () => {
      await controller.restart();
      await Promise.all(vscode.workspace.notebookDocuments.map((notebook) => controller.markStale(notebook)));
    }),
    vscode.commands.registerCommand('washboard.openAsText', openAsText),
  );
}

async function newNotebook(): Promise<void> {
  const prose = new vscode.NotebookCellData(
    vscode.NotebookCellKind.Markup,
    '# A new study\n\nWhat is the question, which band decides, and what was changed?',
    'markdown',
  );
  const code = new vscode.NotebookCellData(vscode.NotebookCellKind.Code, starter.trimEnd(), languageId);
  const notebook = await vscode.workspace.openNotebookDocument(notebookType, new vscode.NotebookData([prose, code]));
  await vscode.window.showNotebookDocument(notebook);
}

async function openAsText(uri?: vscode.Uri): Promise<void> {
  const target = uri ?? vscode.window.activeNotebookEditor?.notebook.uri;
  if (target !== undefined) await vscode.commands.executeCommand('vscode.openWith', target, 'default');
}
