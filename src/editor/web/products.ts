import * as vscode from 'vscode';
import type { Asked } from '../../charts/handleMessages.ts';
import { sentence } from '../messages.ts';
import { takeText } from '../products/texts.ts';

/** What the command line makes elsewhere. */
const commands = ['report', 'figures', 'tables', 'record', 'copyTables', 'savePicture'];

/** In a browser no command line runs: texts are taken out of the notebook, and of the rest one sentence says where it is made. */
export function registerProducts(messaging: vscode.NotebookRendererMessaging): vscode.Disposable {
  const say = (): void => void vscode.window.showWarningMessage(sentence('product.elsewhere', {}));
  return vscode.Disposable.from(
    ...commands.map((name) => vscode.commands.registerCommand(`washboard.${name}`, say)),
    messaging.onDidReceiveMessage(async ({ editor, message }) => {
      const asked = message as Asked;
      if (asked.type === 'save picture') return say();
      if (asked.type === 'save text' || asked.type === 'copy text' || asked.type === 'copy number')
        await takeText(asked, editor.notebook);
    }),
  );
}
