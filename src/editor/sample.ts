import * as vscode from 'vscode';
import { notebookType } from './names.ts';

/**
 * Copies the sample study into a folder, which the user picks unless it is given, and opens it: a study is worked on, not looked at.
 * @param extension the folder of the extension
 */
export async function openSample(extension: vscode.Uri, given?: vscode.Uri): Promise<void> {
  const parent = given ?? (await pickedFolder());
  if (parent === undefined) return;
  const folder = vscode.Uri.joinPath(parent, 'washboard-sample');
  // A copy that is there may hold somebody's work.
  if (!(await isThere(folder))) await copySamples(vscode.Uri.joinPath(extension, 'samples'), folder);
  for (const name of samples) {
    const notebook = vscode.Uri.joinPath(folder, `${name}.washboard.md`);
    if (await isThere(notebook))
      return void (await vscode.commands.executeCommand('vscode.openWith', notebook, notebookType));
  }
}

/** The sample studies, the one to begin with first. */
const samples = ['three-pads', 'springs'];

async function pickedFolder(): Promise<vscode.Uri | undefined> {
  const picked = await vscode.window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    openLabel: vscode.l10n.t('Copy the sample here'),
  });
  return picked?.at(0);
}

/** File by file, as they are listed: in a browser the extension's folder is an address, of which no folder can be listed. */
async function copySamples(from: vscode.Uri, to: vscode.Uri): Promise<void> {
  const { fs } = vscode.workspace;
  const listed = await fs.readFile(vscode.Uri.joinPath(from, 'files.json'));
  const files = JSON.parse(new TextDecoder().decode(listed)) as readonly string[];
  // One after another: writing makes the folders on the way, and not every file system stands two that make the same.
  for (const file of files)
    await fs.writeFile(vscode.Uri.joinPath(to, file), await fs.readFile(vscode.Uri.joinPath(from, file)));
}

const isThere = (uri: vscode.Uri): Thenable<boolean> =>
  vscode.workspace.fs.stat(uri).then(
    () => true,
    () => false,
  );
