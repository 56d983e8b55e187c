import * as vscode from 'vscode';
import type { EngineThreads } from '../engineThreads.ts';
import { languageId } from '../names.ts';
import { recordings } from '../staleness.ts';

const load = (): Promise<typeof import('./parts.ts')> => import('./parts.ts');

/** The ways to begin a study; what they do is loaded with the first of them. @param memory of this workspace */
export function registerStarting(engine: EngineThreads, memory: vscode.Memento): vscode.Disposable {
  const onFiles = (
    command: string,
    act: (
      parts: Awaited<ReturnType<typeof load>>,
      clicked?: vscode.Uri,
      selected?: readonly vscode.Uri[],
    ) => Promise<void>,
  ): vscode.Disposable =>
    vscode.commands.registerCommand(command, async (clicked?: unknown, selected?: unknown) =>
      act(
        await load(),
        clicked instanceof vscode.Uri ? clicked : undefined,
        Array.isArray(selected) ? (selected as vscode.Uri[]) : undefined,
      ),
    );
  return vscode.Disposable.from(
    onFiles('washboard.newNotebook', (parts, clicked) => parts.newNotebook(engine, clicked)),
    onFiles('washboard.notebookFromFiles', (parts, ...files) => parts.notebookFromFiles(engine, ...files)),
    onFiles('washboard.writeSheet', (parts, clicked) => parts.writeSheet(clicked)),
    onFiles('washboard.look', (parts, ...files) => parts.showLook(engine, ...files)),
    onFiles('washboard.insertLoad', (parts, ...files) => parts.insertLoad(...files)),
    vscode.commands.registerCommand('washboard.useRecordings', async (addresses: unknown) =>
      (await load()).useRecordings(engine, addresses),
    ),
    vscode.languages.registerDocumentDropEditProvider(
      { language: languageId },
      {
        async provideDocumentDropEdits(document, position, data) {
          return (await load()).dropped(document, position, data);
        },
      },
      { dropMimeTypes: ['text/uri-list', 'files'] },
    ),
    registerWelcome(memory),
  );
}

/** Shows the welcome of the explorer while a workspace holds recordings and no notebook. */
function registerWelcome(memory: vscode.Memento): vscode.Disposable {
  const treeDataProvider: vscode.TreeDataProvider<undefined> = {
    getChildren: () => [],
    getTreeItem: () => new vscode.TreeItem(''),
    getParent: () => undefined,
  };
  const view = vscode.window.createTreeView('washboard.start', { treeDataProvider });
  let timer: ReturnType<typeof setTimeout> | undefined;
  const soon = (delay: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      void load().then(({ welcome }) => welcome(view, memory));
    }, delay);
  };
  const watchers = ['**/*.washboard.md', recordings].map((glob) => vscode.workspace.createFileSystemWatcher(glob));
  soon(200);
  return vscode.Disposable.from(
    ...watchers,
    ...watchers.flatMap((watcher) => [watcher.onDidCreate(() => soon(500)), watcher.onDidDelete(() => soon(500))]),
    vscode.workspace.onDidChangeWorkspaceFolders(() => soon(200)),
    view,
    { dispose: () => clearTimeout(timer) },
  );
}
