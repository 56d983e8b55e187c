import * as vscode from 'vscode';
import { proseKey } from '../../notebook/proseNumbers.ts';
import { notebookType } from '../names.ts';
import type { ProseNumbers } from './proseNumbers.ts';

/** Tells the rendered prose which of its numbers differ: it marks them quietly. */
export function registerMarks(numbers: ProseNumbers): vscode.Disposable {
  const messaging = vscode.notebooks.createRendererMessaging('washboard-prose');
  const tell = (editor: vscode.NotebookEditor): void => {
    const differing = numbers.of(editor.notebook).flatMap(({ number, check }) => {
      const { state } = check;
      return state === 'differs' || state === 'wrong'
        ? [[proseKey(number), state === 'differs' ? check.text : '', check.message.message]]
        : [];
    });
    void messaging.postMessage({ type: 'numbers', differing }, editor);
  };
  return vscode.Disposable.from(
    numbers.onDidChange((notebook) =>
      vscode.window.visibleNotebookEditors.filter((editor) => editor.notebook === notebook).forEach(tell),
    ),
    messaging.onDidReceiveMessage(({ editor }) => {
      if (editor.notebook.notebookType === notebookType) tell(editor);
    }),
  );
}
