import * as vscode from 'vscode';
import { notebookOf, rangeOf, type KnownNumber, type ProseNumbers } from './proseNumbers.ts';

/** Squiggles under the numbers that differ from the results, and the fix that writes them as they are. */
export function registerProblems(selector: vscode.DocumentSelector, numbers: ProseNumbers): vscode.Disposable {
  const collection = vscode.languages.createDiagnosticCollection('washboard-prose');
  const shown = new Map<vscode.NotebookDocument, readonly vscode.Uri[]>();
  const show = (notebook: vscode.NotebookDocument): void => {
    shown.get(notebook)?.forEach((uri) => collection.delete(uri));
    const byDocument = new Map<vscode.TextDocument, vscode.Diagnostic[]>();
    for (const one of numbers.of(notebook)) {
      const problem = diagnosticOf(one);
      if (problem === undefined) continue;
      byDocument.set(one.document, [...(byDocument.get(one.document) ?? []), problem]);
    }
    byDocument.forEach((problems, { uri }) => collection.set(uri, problems));
    shown.set(
      notebook,
      [...byDocument.keys()].map(({ uri }) => uri),
    );
    if (notebook.isClosed) shown.delete(notebook);
  };
  return vscode.Disposable.from(
    collection,
    numbers.onDidChange(show),
    vscode.languages.registerCodeActionsProvider(
      selector,
      {
        provideCodeActions(document, range, { diagnostics }) {
          const notebook = notebookOf(document);
          if (notebook === undefined) return [];
          return numbers.of(notebook).flatMap((one) => {
            const { document: at, number, check } = one;
            if (at !== document || check.state !== 'differs') return [];
            const written = rangeOf(document, number);
            if (written.intersection(range) === undefined) return [];
            const action = new vscode.CodeAction(
              vscode.l10n.t('Write {0}', check.text),
              vscode.CodeActionKind.QuickFix,
            );
            action.edit = new vscode.WorkspaceEdit();
            action.edit.replace(document.uri, written, check.text);
            action.isPreferred = true;
            action.diagnostics = diagnostics.filter(({ range: other }) => other.isEqual(written));
            return [action];
          });
        },
      },
      { providedCodeActionKinds: [vscode.CodeActionKind.QuickFix] },
    ),
  );
}

function diagnosticOf({ document, number, check }: KnownNumber): vscode.Diagnostic | undefined {
  if (check.state !== 'differs' && check.state !== 'wrong') return undefined;
  const range = rangeOf(document, number.text === '' ? number.mark : number);
  const { Error: error, Warning: warning } = vscode.DiagnosticSeverity;
  const { message } = check.message;
  const diagnostic = new vscode.Diagnostic(range, message, check.state === 'differs' ? warning : error);
  diagnostic.code = check.message.code;
  diagnostic.source = 'washboard';
  return diagnostic;
}
