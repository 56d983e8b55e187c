import * as vscode from 'vscode';
import { tokenModifiers, tokenTypes } from '../../language/services/semanticTokens.ts';
import { rangeOf, type Analyses } from './analyses.ts';
import { language } from './service.ts';

const legend = new vscode.SemanticTokensLegend([...tokenTypes], [...tokenModifiers]);

export function registerSemanticTokens(selector: vscode.DocumentSelector, analyses: Analyses): vscode.Disposable {
  return vscode.languages.registerDocumentSemanticTokensProvider(
    selector,
    {
      provideDocumentSemanticTokens(document) {
        const part = analyses.ofDocument(document);
        if (part === undefined) return undefined;
        const builder = new vscode.SemanticTokensBuilder(legend);
        for (const token of language.semanticTokens(part.notebook, part.cell))
          builder.push(rangeOf(document, token), token.type, [...token.modifiers]);
        return builder.build();
      },
    },
    legend,
  );
}
