import * as vscode from 'vscode';
import type { Analyses } from './analyses.ts';
import { language } from './service.ts';

export function registerSignatureHelp(selector: vscode.DocumentSelector, analyses: Analyses): vscode.Disposable {
  return vscode.languages.registerSignatureHelpProvider(
    selector,
    {
      provideSignatureHelp(document, position) {
        const part = analyses.ofDocument(document);
        const found = part && language.signatureAt(part.notebook, part.cell, document.offsetAt(position));
        if (!found) return undefined;
        const { synopsis, doc, active } = found;
        const signature = new vscode.SignatureInformation(synopsis.text, new vscode.MarkdownString(doc));
        signature.parameters = synopsis.parts.map(
          ({ from, to, doc: about }) => new vscode.ParameterInformation([from, to], new vscode.MarkdownString(about)),
        );
        const help = new vscode.SignatureHelp();
        help.signatures = [signature];
        help.activeSignature = 0;
        // One past the last marks none.
        help.activeParameter = active ?? synopsis.parts.length;
        return help;
      },
    },
    { triggerCharacters: [' ', '(', ','], retriggerCharacters: [' ', ',', ')'] },
  );
}
