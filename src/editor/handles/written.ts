import * as vscode from 'vscode';
import { errorOf } from '../messages.ts';

/** A part of a cell's text that was written in place of another. */
export interface Part {
  readonly cell: vscode.NotebookCell;
  readonly from: number;
  readonly before: string;
  readonly after: string;
}

/** One edit, which is one step to undo. */
export async function write(parts: readonly Part[]): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  for (const { cell, from, before, after } of parts) {
    const { document } = cell;
    const range = new vscode.Range(document.positionAt(from), document.positionAt(from + before.length));
    edit.replace(document.uri, range, after);
  }
  await apply(edit);
}

/** A new cell below another, by one edit. */
export async function writeBelow(
  notebook: vscode.NotebookDocument,
  above: vscode.NotebookCell,
  text: string,
): Promise<vscode.NotebookCell> {
  const data = new vscode.NotebookCellData(vscode.NotebookCellKind.Code, text, above.document.languageId);
  const edit = new vscode.WorkspaceEdit();
  edit.set(notebook.uri, [vscode.NotebookEdit.insertCells(above.index + 1, [data])]);
  await apply(edit);
  return notebook.cellAt(above.index + 1);
}

/** Takes a cell out again. */
export async function takeOut(notebook: vscode.NotebookDocument, { index }: vscode.NotebookCell): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  edit.set(notebook.uri, [vscode.NotebookEdit.deleteCells(new vscode.NotebookRange(index, index + 1))]);
  await apply(edit);
}

async function apply(edit: vscode.WorkspaceEdit): Promise<void> {
  if (!(await vscode.workspace.applyEdit(edit))) throw errorOf('handle.edit', {});
}

/** The parts that take others back, at the places where these stand by now. */
export function reversed(parts: readonly Part[]): Part[] {
  return parts.map((part) => {
    // What was written before it in its cell has moved it on.
    const shift = parts
      .filter((other) => other.cell === part.cell && other.from < part.from)
      .reduce((sum, { before, after }) => sum + after.length - before.length, 0);
    return { cell: part.cell, from: part.from + shift, before: part.after, after: part.before };
  });
}

/** Whether all of it still stands as it was written. */
export const stands = (notebook: vscode.NotebookDocument, parts: readonly Part[]): boolean =>
  parts.every(
    ({ cell, from, before }) =>
      notebook.getCells().includes(cell) && cell.document.getText().slice(from, from + before.length) === before,
  );
