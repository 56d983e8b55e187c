import * as vscode from 'vscode';
import { naturalOrder } from '../../disk/naturalOrder.ts';
import { liesInFiles } from '../places.ts';

/** The files a command is about, in natural order: those selected, the one clicked, or those picked in a dialog. */
export async function chosenFiles(
  clicked: vscode.Uri | undefined,
  selected: readonly vscode.Uri[] | undefined,
): Promise<vscode.Uri[]> {
  const named =
    selected !== undefined && selected.length > 0 ? selected : clicked === undefined ? undefined : [clicked];
  const files =
    named ??
    (await vscode.window.showOpenDialog({ canSelectMany: true, openLabel: vscode.l10n.t('Choose recordings') })) ??
    [];
  return files.filter(liesInFiles).sort((a, b) => naturalOrder(a.path, b.path));
}
