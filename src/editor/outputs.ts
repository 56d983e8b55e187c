import * as vscode from 'vscode';
import { outputMime, type Output } from '../charts/output.ts';
import { idOfOutput } from './handles/shownBy.ts';

/**
 * One output of a cell: our own form for our renderer, and plain text for every other reader.
 * @param ran the code cells as they were run
 */
export function cellOutput(output: Output, ran: readonly vscode.NotebookCell[]): vscode.NotebookCellOutput {
  const items = [
    vscode.NotebookCellOutputItem.json(output, outputMime),
    vscode.NotebookCellOutputItem.text(output.text, 'text/plain'),
  ];
  return new vscode.NotebookCellOutput(items, { washboard: idOfOutput(ran) });
}
