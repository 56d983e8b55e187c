import * as vscode from 'vscode';
import { sentence } from '../messages.ts';
import { activeNotebook } from '../notebooks.ts';
import { markOf } from './mark.ts';
import { rangeOf, type ProseNumbers } from './proseNumbers.ts';

/** Writing all numbers of the prose, and copying one with its mark. */
export function registerNumberCommands(numbers: ProseNumbers): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.commands.registerCommand('washboard.writeAllNumbers', () => writeAll(numbers)),
    vscode.commands.registerCommand('washboard.copyProseNumber', (given?: unknown) => copy(numbers, given)),
  );
}

async function writeAll(numbers: ProseNumbers): Promise<void> {
  const notebook = activeNotebook(undefined);
  if (notebook === undefined) return;
  await numbers.refresh(notebook);
  const edit = new vscode.WorkspaceEdit();
  const all = numbers.of(notebook);
  for (const { document, number, check } of all)
    if (check.state === 'differs') edit.replace(document.uri, rangeOf(document, number), check.text);
  await vscode.workspace.applyEdit(edit);
  const count = (state: string): number => all.filter(({ check }) => check.state === state).length;
  const facts = { written: count('differs'), wrong: count('wrong'), unknown: count('unknown') };
  void vscode.window.showInformationMessage(sentence('prose.written', facts));
}

/** The figures of the results that a cell names come first. @param given a cell, or the name of a result */
async function copy(numbers: ProseNumbers, given: unknown): Promise<void> {
  const notebook = activeNotebook(undefined);
  if (notebook === undefined) return;
  await numbers.refresh(notebook);
  const selected = vscode.window.activeNotebookEditor?.selection.start ?? 0;
  const text = isCell(given) ? given.document.getText() : notebook.cellAt(selected).document.getText();
  const names = typeof given === 'string' ? [given] : namesIn(text);
  const isNear = (expression: string): boolean => names.includes(/^[^.[]*/.exec(expression)?.[0] ?? '');
  const offers = numbers.offers(notebook);
  const near = offers.filter(({ expression }) => isNear(expression));
  if (offers.length === 0) return void vscode.window.showInformationMessage(sentence('prose.nothing', {}));
  const items = (near.length > 0 ? near : offers).map(({ expression, text: label, doc }) => ({
    label,
    description: expression,
    detail: doc,
  }));
  const picked = await vscode.window.showQuickPick(items, {
    title: vscode.l10n.t('Copy as Prose Number'),
    matchOnDescription: true,
    matchOnDetail: true,
  });
  if (picked !== undefined) await vscode.env.clipboard.writeText(picked.label + markOf(picked.description));
}

const isCell = (given: unknown): given is vscode.NotebookCell =>
  typeof given === 'object' && given !== null && 'document' in given && 'notebook' in given;

/** Names at the beginning of the cell's statements. */
const namesIn = (text: string): string[] => [...text.matchAll(/[\p{L}_][\p{L}\d_]*/gu)].map(([name]) => name);
