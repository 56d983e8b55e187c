import * as vscode from 'vscode';
import { locationOf, rangeOf, type Analyses } from './analyses.ts';
import { language } from './service.ts';

/** Where a name is bound, and where else it stands, over all cells. */
export function registerReferences(selector: vscode.DocumentSelector, analyses: Analyses): vscode.Disposable {
  return vscode.Disposable.from(
    vscode.languages.registerDefinitionProvider(selector, {
      provideDefinition(document, position) {
        const part = analyses.ofDocument(document);
        const found = part && language.definitionAt(part.notebook, part.cell, document.offsetAt(position));
        return found && locationOf(part, found.cell, found.place);
      },
    }),
    vscode.languages.registerReferenceProvider(selector, {
      provideReferences(document, position, { includeDeclaration }) {
        const part = analyses.ofDocument(document);
        if (part === undefined) return undefined;
        return language
          .referencesAt(part.notebook, part.cell, document.offsetAt(position))
          .filter(({ binds }) => includeDeclaration || !binds)
          .map(({ cell, place }) => locationOf(part, cell, place));
      },
    }),
    vscode.languages.registerDocumentHighlightProvider(selector, {
      provideDocumentHighlights(document, position) {
        const part = analyses.ofDocument(document);
        if (part === undefined) return undefined;
        return language
          .highlightsAt(part.notebook, part.cell, document.offsetAt(position))
          .map(
            ({ place, binds }) =>
              new vscode.DocumentHighlight(
                rangeOf(document, place),
                binds ? vscode.DocumentHighlightKind.Write : vscode.DocumentHighlightKind.Read,
              ),
          );
      },
    }),
  );
}
