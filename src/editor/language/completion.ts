import * as vscode from 'vscode';
import { caretAt } from '../../language/services/caret.ts';
import { completionsAt, type Completion, type CompletionKind } from '../../language/services/completion.ts';
import type { Outside } from '../../language/services/outside.ts';
import type { Analyses, Part } from './analyses.ts';
import type { Known } from './known.ts';
import { outsideOf } from './outside.ts';

/** Characters after which something may be wanted that no letter has begun yet. */
const triggers = [' ', '"', '/', '.', '|', '(', '='];

const kinds: Readonly<Record<CompletionKind, vscode.CompletionItemKind>> = {
  verb: vscode.CompletionItemKind.Function,
  name: vscode.CompletionItemKind.Variable,
  keyword: vscode.CompletionItemKind.Keyword,
  word: vscode.CompletionItemKind.EnumMember,
  unit: vscode.CompletionItemKind.Unit,
  file: vscode.CompletionItemKind.File,
  folder: vscode.CompletionItemKind.Folder,
  channel: vscode.CompletionItemKind.Field,
  function: vscode.CompletionItemKind.Method,
  field: vscode.CompletionItemKind.Property,
  constant: vscode.CompletionItemKind.Constant,
  range: vscode.CompletionItemKind.Value,
};

export function registerCompletion(
  selector: vscode.DocumentSelector,
  analyses: Analyses,
  known: Known,
): vscode.Disposable {
  return vscode.languages.registerCompletionItemProvider(
    selector,
    {
      async provideCompletionItems(document, position, _token, { triggerCharacter }) {
        const part = analyses.ofDocument(document);
        if (part === undefined) return undefined;
        const offset = document.offsetAt(position);
        if (triggerCharacter !== undefined && !isAsked(triggerCharacter, part, offset)) return undefined;
        const outside = outsideOf(part, known);
        const found = await completionsAt(part.notebook, part.cell, offset, outside);
        if (triggerCharacter === ' ' && !isPressing(document, offset, found)) return undefined;
        return found.map((completion, order) => itemOf(completion, order, document, position, outside));
      },
    },
    ...triggers,
  );
}

/** A quote or a slash asks for files, and only inside a text. */
function isAsked(trigger: string, { notebook, cell }: Part, offset: number): boolean {
  const { situation } = caretAt(notebook, cell, offset);
  if (trigger === '"' || trigger === '/') return situation.type === 'text';
  return situation.type !== 'nowhere' && !(trigger === '.' && situation.type !== 'field');
}

/** A blank asks only where something has to follow: a list at the end of every line would be in the way. */
function isPressing(document: vscode.TextDocument, offset: number, found: readonly Completion[]): boolean {
  const before = document.getText().slice(0, offset).trimEnd();
  return /[|=,(]$/.test(before) || found.some(({ rank }) => rank <= 0);
}

function itemOf(
  completion: Completion,
  order: number,
  document: vscode.TextDocument,
  caret: vscode.Position,
  outside: Outside,
): vscode.CompletionItem {
  const { label, kind, insert, place, detail, doc, again } = completion;
  const item = new vscode.CompletionItem(label, kinds[kind]);
  const start = document.positionAt(place.from);
  item.insertText = insert;
  item.range = {
    inserting: new vscode.Range(start, caret),
    replacing: new vscode.Range(start, document.positionAt(place.to)),
  };
  item.sortText = String(order).padStart(4, '0');
  const shown = (kind === 'name' ? outside.facts(label)?.summary : undefined) ?? detail;
  if (shown !== undefined) item.detail = shown;
  if (doc !== undefined) item.documentation = new vscode.MarkdownString(doc);
  if (insert.startsWith('"')) item.filterText = insert;
  if (again === true) item.command = { title: 'Suggest what follows', command: 'editor.action.triggerSuggest' };
  return item;
}
