import * as vscode from 'vscode';
import type { EngineThread } from '../engineThread.ts';

/** Commands that begin a study; what they do is loaded with the first of them. */
export function registerStarting(engine: EngineThread): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand('washboard.newNotebook', async (clicked?: unknown) => {
      const { newNotebook } = await import('./start.ts');
      await newNotebook(engine, clicked instanceof vscode.Uri ? clicked : undefined);
    }),
    vscode.commands.registerCommand(
      'washboard.notebookFromFiles',
      async (clicked?: vscode.Uri, selected?: readonly vscode.Uri[]) => {
        const { notebookFromFiles } = await import('./start.ts');
        await notebookFromFiles(engine, clicked, selected);
      },
    ),
  );
}
