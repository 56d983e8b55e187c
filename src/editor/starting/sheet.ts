import * as vscode from 'vscode';
import { naturalOrder } from '../../disk/naturalOrder.ts';
import { isRecordingName } from '../../disk/recordings.ts';
import { sentence } from '../messages.ts';
import { sheetOfFiles } from '../../analysis/planning/sheetText.ts';

/** Writes a run sheet for the recordings of a folder, beside them, and opens it to be filled in. */
export async function writeSheet(clicked?: vscode.Uri): Promise<void> {
  const folder =
    clicked ??
    (
      await vscode.window.showOpenDialog({
        canSelectFolders: true,
        canSelectFiles: false,
        openLabel: vscode.l10n.t('Folder of recordings'),
      })
    )?.[0];
  if (folder === undefined) return;
  const entries = await vscode.workspace.fs.readDirectory(folder);
  // Some disks tell no capital from a small letter.
  const there = entries.find(([name]) => name.toLowerCase() === 'runs.csv')?.[0];
  const sheet = vscode.Uri.joinPath(folder, there ?? 'runs.csv');
  const files = entries
    .map(([name]) => name)
    .filter(isRecordingName)
    .sort(naturalOrder);
  if (files.length === 0) return void vscode.window.showWarningMessage(sentence('sheet.recordings', {}));
  // A sheet that is there holds somebody's notes: it is opened, not written again.
  if (there === undefined) await vscode.workspace.fs.writeFile(sheet, new TextEncoder().encode(sheetOfFiles(files)));
  await vscode.window.showTextDocument(sheet);
}
