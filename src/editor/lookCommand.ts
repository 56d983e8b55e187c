import { dirname, relative } from 'node:path';
import * as vscode from 'vscode';
import { projectRoot } from '../disk/project.ts';
import { naturalOrder } from '../disk/naturalOrder.ts';
import { starterNotebook } from '../engine/starter.ts';
import type { EngineThread } from './engineThread.ts';
import { notebookType } from './names.ts';

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
        const files = await chosen(clicked, selected);
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
    vscode.commands.registerCommand(
      'washboard.notebookFromFiles',
      async (clicked?: vscode.Uri, selected?: readonly vscode.Uri[]) => {
        const files = await chosen(clicked, selected);
        if (files.length > 0) await writeStarter(files);
      },
    ),
  );
}

const slashed = (path: string): string => path.split('\\').join('/');

const rootOf = (file: vscode.Uri, folder: string): string =>
  vscode.workspace.getWorkspaceFolder(file)?.uri.fsPath ?? projectRoot(folder);

/** The files a command is about, in natural order: those selected, the one clicked, or those picked in a dialog. */
async function chosen(
  clicked: vscode.Uri | undefined,
  selected: readonly vscode.Uri[] | undefined,
): Promise<vscode.Uri[]> {
  const named =
    selected !== undefined && selected.length > 0 ? selected : clicked === undefined ? undefined : [clicked];
  const files =
    named ?? (await vscode.window.showOpenDialog({ canSelectMany: true, openLabel: 'Choose recordings' })) ?? [];
  return files.filter((file) => file.scheme === 'file').sort((a, b) => naturalOrder(a.fsPath, b.fsPath));
}

/** Writes a notebook into the folder above the recordings' own, under a name that is free, and opens it. */
async function writeStarter(files: readonly vscode.Uri[]): Promise<void> {
  const raw = dirname(files[0].fsPath);
  const root = rootOf(files[0], raw);
  // A folder of raw files stays raw: the notebook goes beside it, as long as that is still inside the project.
  const folder = raw === root ? raw : dirname(raw);
  const listed = await vscode.workspace.fs.readDirectory(vscode.Uri.file(raw));
  const prefix = slashed(relative(folder, raw));
  const besides = listed.map(([name]) => (prefix === '' ? name : `${prefix}/${name}`));
  const text = starterNotebook(
    files.map(({ fsPath }) => slashed(relative(folder, fsPath))),
    besides,
  );
  const target = await freeFile(vscode.Uri.file(folder));
  await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(text));
  await vscode.commands.executeCommand('vscode.openWith', target, notebookType);
}

async function freeFile(folder: vscode.Uri): Promise<vscode.Uri> {
  for (let n = 1; ; n++) {
    const file = vscode.Uri.joinPath(folder, `study${n === 1 ? '' : `-${n}`}.washboard.md`);
    const there = await vscode.workspace.fs.stat(file).then(
      () => true,
      () => false,
    );
    if (!there) return file;
  }
}
