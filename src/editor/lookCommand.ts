import { dirname, relative } from 'node:path';
import * as vscode from 'vscode';
import type { EngineThread } from './engineThread.ts';
import { chosenFiles, rootOf, slashed } from './starting/chosen.ts';

const scheme = 'washboard-look';

/** Commands of the explorer on a logger's files: a first look, and a notebook that begins with them. */
export function registerLook(engine: EngineThread): vscode.Disposable {
  const texts = new Map<string, string>();
  return vscode.Disposable.from(
    vscode.workspace.registerTextDocumentContentProvider(scheme, {
      provideTextDocumentContent: ({ path }) => texts.get(path) ?? '',
    }),
    vscode.workspace.onDidCloseTextDocument(({ uri }) => uri.scheme === scheme && texts.delete(uri.path)),
    vscode.commands.registerCommand(
      'washboard.look',
      async (clicked?: vscode.Uri, selected?: readonly vscode.Uri[]) => {
        const files = await chosenFiles(clicked, selected);
        if (files.length === 0) return;
        const folder = dirname(files[0].fsPath);
        const paths = files.map(({ fsPath }) => slashed(relative(folder, fsPath)));
        const lines = await vscode.window.withProgress(
          { location: vscode.ProgressLocation.Window, title: 'Looking at the recordings' },
          () => engine.look({ folder, root: rootOf(files[0], folder) }, paths),
        );
        const path = `/First look at ${paths.length === 1 ? paths[0] : `${paths.length} files`}`;
        texts.set(path, lines.join('\n'));
        await vscode.window.showTextDocument(vscode.Uri.from({ scheme, path }), { preview: true });
      },
    ),
  );
}
