import * as vscode from 'vscode';
import { outputMime, type Output } from '../charts/output.ts';

/** One output of a cell: our own form for our renderer, and plain text for every other reader. */
export function cellOutput(output: Output): vscode.NotebookCellOutput {
  return new vscode.NotebookCellOutput([
    vscode.NotebookCellOutputItem.json(output, outputMime),
    vscode.NotebookCellOutputItem.text(output.text, 'text/plain'),
  ]);
}
