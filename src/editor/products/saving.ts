import * as vscode from 'vscode';
import { refusedKind } from '../../disk/keptKinds.ts';
import { headLength } from '../../disk/recordings.ts';
import { firstBytes } from '../firstBytes.ts';

/** Writes what a user saves; whatever the dialog asked, over no notebook, record or recording. */
export async function save(to: vscode.Uri, content: Uint8Array): Promise<void> {
  const isThere = await vscode.workspace.fs.stat(to).then(
    () => true,
    () => false,
  );
  const path = vscode.workspace.asRelativePath(to);
  const refused = isThere ? refusedKind(path, await firstBytes(to, headLength), content) : undefined;
  if (refused !== undefined) return void vscode.window.showErrorMessage(refused.failure.message);
  await vscode.workspace.fs.writeFile(to, content);
}
