import type * as vscode from 'vscode';
import { outputMime, type Output } from '../../charts/output.ts';
import { textsOf } from '../notebooks.ts';

/** Outputs are remembered up to so many; of an older one nothing is moved any more. */
const most = 5000;

/** The code cells of the notebook as each output was made, by the output's id: a literal's cell is counted among them. */
const cells = new Map<string, readonly vscode.NotebookCell[]>();
let count = 0;

/** The texts of cells as they were run together. */
const texts = new WeakMap<readonly vscode.NotebookCell[], readonly string[]>();

/** An id for an output that a run of these cells gave. */
export function idOfOutput(ran: readonly vscode.NotebookCell[]): string {
  const id = `${Date.now().toString(36)}-${++count}`;
  cells.set(id, ran);
  if (!texts.has(ran)) texts.set(ran, textsOf(ran));
  if (cells.size > most) cells.delete(cells.keys().next().value!);
  return id;
}

export const cellsBehind = (id: string): readonly vscode.NotebookCell[] | undefined => cells.get(id);

/** The texts of those cells as they were then. */
export const textsBehind = (ran: readonly vscode.NotebookCell[]): readonly string[] => texts.get(ran) ?? [];

/** The id of an output, if we gave it one. */
export const idIn = ({ metadata }: vscode.NotebookCellOutput): string | undefined =>
  metadata?.['washboard'] as string | undefined;

/** What an output of ours shows. */
export function dataIn({ items }: vscode.NotebookCellOutput): Output | undefined {
  const item = items.find(({ mime }) => mime === outputMime);
  return item && (JSON.parse(new TextDecoder().decode(item.data)) as Output);
}

/** The cell that shows an output. */
export const cellOf = (notebook: vscode.NotebookDocument, output: string): vscode.NotebookCell | undefined =>
  notebook.getCells().find(({ outputs }) => outputs.some((one) => idIn(one) === output));
