import * as vscode from 'vscode';

/** A file of the workspace that the tests run in. */
export function fileOf(...path: string[]): vscode.Uri {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  if (!folder) throw new Error('no workspace is open');
  return vscode.Uri.joinPath(folder.uri, ...path);
}

/** Waits until `holds`, asked again at each change of a notebook; a timed-out test says the rest. */
export function notebookComesTo(holds: () => boolean): Promise<void> {
  return new Promise((resolve) => {
    if (holds()) return resolve();
    const listening = vscode.workspace.onDidChangeNotebookDocument(() => {
      if (!holds()) return;
      listening.dispose();
      resolve();
    });
  });
}

/** Waits until a tab of this title is there: the editor tells of it a moment after it was opened. */
export async function tabOpens(title: string): Promise<void> {
  const titles = (): string[] => vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs.map(({ label }) => label));
  for (let tries = 0; tries < 150 && !titles().includes(title); tries++)
    await new Promise((resolve) => setTimeout(resolve, 100));
  if (!titles().includes(title)) throw new Error(`there is no tab "${title}" among ${titles().join(', ')}`);
}
