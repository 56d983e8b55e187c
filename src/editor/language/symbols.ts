import * as vscode from 'vscode';
import { rangeOf, type Analyses } from './analyses.ts';
import { language } from './service.ts';

/** Bound names, for outline, breadcrumbs and `@` in the quick open. */
export function registerSymbols(selector: vscode.DocumentSelector, analyses: Analyses): vscode.Disposable {
  return vscode.languages.registerDocumentSymbolProvider(
    selector,
    {
      provideDocumentSymbols(document) {
        const part = analyses.ofDocument(document);
        if (part === undefined) return undefined;
        return language
          .symbolsOf(part.notebook, part.cell)
          .map(
            ({ name, detail, place, namePlace }) =>
              new vscode.DocumentSymbol(
                name,
                detail,
                vscode.SymbolKind.Variable,
                rangeOf(document, place),
                rangeOf(document, namePlace),
              ),
          );
      },
    },
    { label: 'Washboard' },
  );
}
