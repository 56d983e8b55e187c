import * as vscode from 'vscode';
import type { Asked, LinkAsked } from '../charts/handleMessages.ts';
import { cellOf } from './handles/shownBy.ts';
import { pagedCodes } from './pagedCodes.ts';
import { referenceCommand } from './reference.ts';

/** Follows the links of messages in outputs: to the page about one, and to the text that it is about. */
export const registerMessageLinks = (messaging: vscode.NotebookRendererMessaging): vscode.Disposable =>
  messaging.onDidReceiveMessage(async ({ editor, message }) => {
    const asked = message as Asked;
    if (asked.type === 'page')
      await vscode.commands.executeCommand(referenceCommand, pagedCodes.has(asked.code) ? asked.code : undefined);
    if (asked.type === 'text') await goTo(asked, editor.notebook);
  });

async function goTo(
  { output, at: { line, from, to } }: Extract<LinkAsked, { readonly type: 'text' }>,
  notebook: vscode.NotebookDocument,
): Promise<void> {
  const cell = cellOf(notebook, output);
  if (cell === undefined) return;
  // The cell may have been edited since.
  const selection = cell.document.validateRange(new vscode.Range(line - 1, from - 1, line - 1, to));
  await vscode.window.showTextDocument(cell.document, { selection });
}
