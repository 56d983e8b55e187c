import * as vscode from 'vscode';
import type { TakingAsked } from '../../charts/handleMessages.ts';
import { cellOf } from '../handles/shownBy.ts';
import { folderOf } from '../places.ts';
import { save } from './saving.ts';

/** Does what the menu of a chart or table asks that is a text. */
export async function takeText(
  message: Extract<TakingAsked, { type: 'save text' | 'copy text' | 'copy number' }>,
  notebook: vscode.NotebookDocument,
): Promise<void> {
  switch (message.type) {
    case 'save text': {
      const to = await askFile(notebook, message.name, { CSV: ['csv'] });
      if (to !== undefined) await save(to, new TextEncoder().encode(message.text));
      return;
    }
    case 'copy text':
      return void (await vscode.env.clipboard.writeText(message.text));
    case 'copy number': {
      const cell = cellOf(notebook, message.output);
      return void (await vscode.commands.executeCommand('washboard.copyProseNumber', cell));
    }
  }
}

/** Where a file is to go that is offered a name beside the notebook. */
export const askFile = (
  { uri }: vscode.NotebookDocument,
  name: string,
  filters: Record<string, string[]>,
): Thenable<vscode.Uri | undefined> =>
  vscode.window.showSaveDialog({ defaultUri: vscode.Uri.joinPath(folderOf(uri), name), filters });
