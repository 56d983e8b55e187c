import * as vscode from 'vscode';
import { naturalOrder } from '../../disk/naturalOrder.ts';
import { isRecordingName, isWorthLooking } from '../../disk/recordings.ts';
import { pathFrom } from '../places.ts';
import { chosenFiles } from './chosen.ts';
import { entriesOf } from './found.ts';

/** So many floors of folders are looked through. */
const floors = 3;

/** Recordings in a notebook's folder and below, of which the reader picks; by a dialog where there are none. */
export async function pickedNear(folder: vscode.Uri): Promise<readonly vscode.Uri[] | undefined> {
  const files = await recordingsIn(folder, floors);
  if (files.length === 0) return chosenFiles(undefined, undefined);
  const items = files.map((file) => ({ label: pathFrom(folder, file), file }));
  const picked = await vscode.window.showQuickPick(
    items.sort((a, b) => naturalOrder(a.label, b.label)),
    {
      title: vscode.l10n.t('Insert Load of Recordings'),
      placeHolder: vscode.l10n.t('Type a part of their names, then tick those to load'),
      canPickMany: true,
    },
  );
  return picked?.map(({ file }) => file);
}

async function recordingsIn(folder: vscode.Uri, deep: number): Promise<vscode.Uri[]> {
  const entries = await entriesOf(folder);
  const at = (name: string): vscode.Uri => vscode.Uri.joinPath(folder, name);
  const own = entries.filter(({ name, folder: isFolder }) => !isFolder && isRecordingName(name));
  const folders = deep > 0 ? entries.filter(({ name, folder: isFolder }) => isFolder && isWorthLooking(name)) : [];
  const below = await Promise.all(folders.map(({ name }) => recordingsIn(at(name), deep - 1)));
  return [...own.map(({ name }) => at(name)), ...below.flat()];
}
