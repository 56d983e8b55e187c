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
