import * as vscode from 'vscode';
import type { Asked, StaleMark, Told } from '../charts/handleMessages.ts';
import type { CellStates } from './cellStates.ts';
import { cellOf, idIn } from './handles/shownBy.ts';
import { languageId, notebookType } from './names.ts';
import { codeCells } from './notebooks.ts';

/** Tells the outputs on the page which of them are out of date and why, and runs the cell of one that asks for it. */
export function registerStaleMarks(messaging: vscode.NotebookRendererMessaging, states: CellStates): vscode.Disposable {
  let lastSent = '';
  const tell = (editor?: vscode.NotebookEditor): void => {
    const message: Told = { type: 'stale', marks: marksOf(states) };
    const text = JSON.stringify(message.marks);
    if (editor === undefined && text === lastSent) return;
    lastSent = text;
    void messaging.postMessage(message, editor);
  };
  return vscode.Disposable.from(
    states.onDidChange(() => tell()),
    messaging.onDidReceiveMessage(async ({ editor, message }) => {
      const asked = message as Asked;
      if (asked.type === 'shown') tell(editor);
      if (asked.type !== 'run') return;
      const { notebook } = editor;
      const cell = cellOf(notebook, asked.output);
      if (cell === undefined) return;
      const ranges = [{ start: cell.index, end: cell.index + 1 }];
      await vscode.commands.executeCommand('notebook.cell.execute', { ranges, document: notebook.uri });
    }),
  );
}

const marksOf = (states: CellStates): StaleMark[] =>
  vscode.workspace.notebookDocuments
    .filter((notebook) => notebook.notebookType === notebookType)
    .flatMap((notebook) => codeCells(notebook, languageId))
    .flatMap((cell) => {
      const { stale, why = '' } = states.get(cell);
      if (stale !== true) return [];
      return cell.outputs.flatMap((output, index) => {
        const id = idIn(output);
        return id === undefined ? [] : [{ output: id, why: index === 0 ? why : '' }];
      });
    });
