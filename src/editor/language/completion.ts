import * as vscode from 'vscode';
import type { Caret } from '../../language/services/caret.ts';
import type { Completion, CompletionKind } from '../../language/services/offer.ts';
import type { Outside } from '../../language/services/outside.ts';
import { rangeOf, type Analyses, type Part } from './analyses.ts';
import type { EngineFacts } from './engineFacts.ts';
import { outsideOf } from './outside.ts';
import { followUp } from './followUp.ts';
import type { Snippets } from './snippets.ts';
import { language } from './service.ts';

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
  engineFacts: EngineFacts,
  snippets: Snippets,
): vscode.Disposable {
  return vscode.languages.registerCompletionItemProvider(
    selector,
    {
      async provideCompletionItems(document, position, _token, { triggerCharacter: trigger }) {
        const part = analyses.ofDocument(document);
        if (part === undefined) return undefined;
        const offset = document.offsetAt(position);
        const caret = language.caretAt(part.notebook, part.cell, offset);
        if (trigger !== undefined && !isAsked(trigger, caret)) return undefined;
        const outside = outsideOf(part, engineFacts);
        const found = await language.completionsAt(part.notebook, part.cell, offset, outside);
        if (trigger === ' ' && !isPressing(part, offset, found)) return undefined;
        const items = found.map((completion, order) => itemOf(completion, order, document, position, outside));
        return beginsLine(part, caret) ? [...items, ...(await snippets.items(rangeOf(document, caret.place)))] : items;
      },
    },
    ...triggers,
  );
}

/** A quote or a slash asks for files, and only inside a text; a point for fields, and not within a number. */
function isAsked(trigger: string, { situation: { type } }: Caret): boolean {
  if (trigger === '"' || trigger === '/') return type === 'text';
  return type !== 'nowhere' && !(trigger === '.' && type !== 'field');
}

/** A blank asks only where something has to follow: a list at the end of every line would be in the way. */
function isPressing({ document }: Part, offset: number, found: readonly Completion[]): boolean {
  const before = document.getText().slice(0, offset).trimEnd();
  return /[|=,(]$/.test(before) || found.some(({ rank }) => rank <= 0);
}

function beginsLine({ document }: Part, { situation, place }: Caret): boolean {
  const { line, character } = document.positionAt(place.from);
  return situation.type === 'statement' && document.lineAt(line).text.slice(0, character).trim() === '';
}

function itemOf(
  completion: Completion,
  order: number,
  document: vscode.TextDocument,
  caret: vscode.Position,
  outside: Outside,
): vscode.CompletionItem {
  const { label, kind, place, detail, doc, again } = completion;
  const item = new vscode.CompletionItem(label, kinds[kind]);
  const { insert, to } = kind === 'file' ? closed(completion, document) : { insert: completion.insert, to: place.to };
  const whole = rangeOf(document, { from: place.from, to });
  item.insertText = bracketed(insert);
  // A path is replaced as a whole, with its closing quote.
  item.range = kind === 'file' ? whole : { inserting: whole.with({ end: caret }), replacing: whole };
  item.sortText = String(order).padStart(4, '0');
  const shown = (kind === 'name' ? outside.facts(label)?.summary : undefined) ?? detail;
  if (shown !== undefined) item.detail = shown;
  if (doc !== undefined) item.documentation = new vscode.MarkdownString(doc);
  if (insert.startsWith('"')) item.filterText = insert;
  if (again === true) item.command = followUp;
  return item;
}

/** A path with its closing quote, so that the caret goes on behind it. */
function closed({ insert, place }: Completion, document: vscode.TextDocument): { insert: string; to: number } {
  if (insert.startsWith('"')) return { insert, to: place.to };
  const hasQuote = document.getText()[place.to] === '"';
  return { insert: `${insert}"`, to: hasQuote ? place.to + 1 : place.to };
}

/** What opens a bracket closes it, too, with the caret inside. */
function bracketed(insert: string): string | vscode.SnippetString {
  if (insert.includes('"') || !/\([^)]*$/.test(insert)) return insert;
  return new vscode.SnippetString().appendText(insert).appendTabstop(0).appendText(')');
}
