import * as vscode from 'vscode';
import type { Asked, Told } from '../charts/handleMessages.ts';

/** Tells the page its words in the reader's language, where that is another, when something has been drawn there. */
export function registerPageWords(messaging: vscode.NotebookRendererMessaging): vscode.Disposable {
  const words = vscode.l10n.bundle;
  if (words === undefined) return vscode.Disposable.from();
  return messaging.onDidReceiveMessage(({ editor, message }) => {
    if ((message as Asked).type === 'shown')
      void messaging.postMessage({ type: 'words', words } satisfies Told, editor);
  });
}
