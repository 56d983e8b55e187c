import * as vscode from 'vscode';
import { rangeOf, type Analyses } from './analyses.ts';
import { language } from './service.ts';

export function registerSelectionRanges(selector: vscode.DocumentSelector, analyses: Analyses): vscode.Disposable {
  return vscode.languages.registerSelectionRangeProvider(selector, {
    provideSelectionRanges(document, positions) {
      const part = analyses.ofDocument(document);
      if (part === undefined) return undefined;
      const cell = part.notebook.cells[part.cell];
      return positions.map((position) => {
        const places = language.selectionsAt(cell, document.offsetAt(position));
        return (
          places.reduceRight<vscode.SelectionRange | undefined>(
            (parent, place) => new vscode.SelectionRange(rangeOf(document, place), parent),
            undefined,
          ) ?? new vscode.SelectionRange(new vscode.Range(position, position))
        );
      });
    },
  });
}
