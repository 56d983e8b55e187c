import * as vscode from 'vscode';
import { markOf } from './mark.ts';
import { notebookOf, type ProseNumbers } from './proseNumbers.ts';

/** In prose: the results' figures with their marks; within a mark, what it may name. */
export function registerNumberCompletion(selector: vscode.DocumentSelector, numbers: ProseNumbers): vscode.Disposable {
  return vscode.languages.registerCompletionItemProvider(
    selector,
    {
      provideCompletionItems(document, position, _token, { triggerCharacter: trigger }) {
        const notebook = notebookOf(document);
        if (notebook === undefined) return undefined;
        const before = document.getText(new vscode.Range(position.with({ character: 0 }), position));
        const open = /<!--\s*=\s*([^<>]*)$/.exec(before);
        if (open === null && trigger !== undefined) return undefined;
        const typed = open?.[1] ?? /[\p{L}_][\p{L}\d_.[\]]*$/u.exec(before)?.[0] ?? '';
        const typedRange = new vscode.Range(position.translate(0, -typed.length), position);
        return numbers.offers(notebook).map(({ expression, text, doc }, order) => {
          const item = new vscode.CompletionItem(
            { label: expression, description: text },
            vscode.CompletionItemKind.Value,
          );
          item.detail = doc;
          item.range = typedRange;
          item.filterText = expression;
          item.sortText = String(order).padStart(5, '0');
          item.insertText = open === null ? `${text}${markOf(expression)}` : expression;
          return item;
        });
      },
    },
    '=',
    '.',
  );
}
