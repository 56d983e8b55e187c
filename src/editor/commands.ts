import * as vscode from 'vscode';
import type { Controller } from './controller.ts';
import { notebookType } from './names.ts';
import { activeNotebook } from './notebooks.ts';

/** Commands of the palette and the notebook's toolbar. */
export function registerCommands(
  controller: Controller,
  extension: vscode.Uri,
  log: vscode.LogOutputChannel,
): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand('washboard.restartEngine', () => restart(controller)),
    vscode.commands.registerCommand('washboard.restartAndRunAll', async (given?: unknown) => {
      const notebook = activeNotebook(given);
      if (notebook === undefined) return;
      await restart(controller);
      await vscode.commands.executeCommand('notebook.execute', notebook.uri);
    }),
    vscode.commands.registerCommand('washboard.showLog', () => log.show(true)),
    vscode.commands.registerCommand('washboard.openAsText', openAsText),
    vscode.commands.registerCommand('washboard.openSample', () => openSample(extension)),
  );
}

async function restart(controller: Controller): Promise<void> {
  await controller.restart();
  await Promise.all(vscode.workspace.notebookDocuments.map((notebook) => controller.markStale(notebook)));
}

async function openAsText(uri?: vscode.Uri): Promise<void> {
  const target = uri ?? vscode.window.activeNotebookEditor?.notebook.uri;
  if (target !== undefined) await vscode.commands.executeCommand('vscode.openWith', target, 'default');
}

/** Copies the sample study into a folder that the user picks, and opens it: a study is worked on, not looked at. */
async function openSample(extension: vscode.Uri): Promise<void> {
  const picked = await vscode.window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    openLabel: vscode.l10n.t('Copy the sample here'),
  });
  const parent = picked?.at(0);
  if (parent === undefined) return;
  const folder = vscode.Uri.joinPath(parent, 'washboard-sample');
  // A copy that is there may hold somebody's work.
  if (!(await isThere(folder)))
    await vscode.workspace.fs.copy(vscode.Uri.joinPath(extension, 'samples'), folder, { overwrite: false });
  for (const name of samples) {
    const notebook = vscode.Uri.joinPath(folder, `${name}.washboard.md`);
    if (await isThere(notebook))
      return void (await vscode.commands.executeCommand('vscode.openWith', notebook, notebookType));
  }
}

/** The sample studies, the one to begin with first. The package leaves out that of the seat pad, the largest. */
const samples = ['three-pads', 'seat-pad', 'springs'];

const isThere = (uri: vscode.Uri): Thenable<boolean> =>
  vscode.workspace.fs.stat(uri).then(
    () => true,
    () => false,
  );
