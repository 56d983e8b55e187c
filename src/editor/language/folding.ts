import * as vscode from 'vscode';
import type { Analyses } from './analyses.ts';
import { language } from './service.ts';

export function registerFolding(selector: vscode.DocumentSelector, analyses: Analyses): vscode.Disposable {
  return vscode.languages.registerFoldingRangeProvider(selector, {
    provideFoldingRanges(document) {
      const part = analyses.ofDocument(document);
      if (part === undefined) return undefined;
      return language
        .foldsOf(part.notebook.cells[part.cell])
        .map(
          ({ from, to, kind }) =>
            new vscode.FoldingRange(from, to, kind === 'comment' ? vscode.FoldingRangeKind.Comment : undefined),
        );
    },
  });
}
