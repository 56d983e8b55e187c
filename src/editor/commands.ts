import * as vscode from 'vscode';
import type { Controller } from './controller.ts';
import { activeNotebook } from './notebooks.ts';
import { openSample } from './sample.ts';

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
    vscode.commands.registerCommand('washboard.openSample', (parent?: unknown) =>
      openSample(extension, parent instanceof vscode.Uri ? parent : undefined),
    ),
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
