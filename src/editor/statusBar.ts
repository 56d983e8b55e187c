import * as vscode from 'vscode';
import type { CellStates } from './cellStates.ts';
import { sentence } from './messages.ts';
import { languageId, notebookType } from './names.ts';

/** Under a cell: the work in hand, or that what it shows is out of date. */
export function registerStatusBar(states: CellStates): vscode.Disposable {
  return vscode.notebooks.registerNotebookCellStatusBarItemProvider(notebookType, {
    onDidChangeCellStatusBarItems: states.onDidChange,
    provideCellStatusBarItems(cell) {
      if (cell.document.languageId !== languageId) return [];
      const { progress, stale, why, earlier } = states.get(cell);
      const at = vscode.NotebookCellStatusBarAlignment.Left;
      if (progress !== undefined) return [new vscode.NotebookCellStatusBarItem(`$(loading~spin) ${progress}`, at)];
      if (stale !== true) return earlier === true ? [fromEarlierRun(at)] : [];
      const item = new vscode.NotebookCellStatusBarItem(`$(history) ${vscode.l10n.t('Out of date')}`, at);
      item.tooltip = why ?? sentence('cell.stale', { changes: [] });
      item.command = {
        title: vscode.l10n.t('Run cell'),
        command: 'notebook.cell.execute',
        arguments: [{ ranges: [{ start: cell.index, end: cell.index + 1 }], document: cell.notebook.uri }],
      };
      return [item];
    },
  });
}

function fromEarlierRun(at: vscode.NotebookCellStatusBarAlignment): vscode.NotebookCellStatusBarItem {
  const item = new vscode.NotebookCellStatusBarItem(`$(archive) ${vscode.l10n.t('From an earlier run')}`, at);
  item.tooltip = sentence('cell.earlier', {});
  return item;
}
