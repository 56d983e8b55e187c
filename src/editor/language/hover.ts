import * as vscode from 'vscode';
import { hoverAt } from '../../language/services/hover.ts';
import { mentionAt } from '../../language/services/mentionAt.ts';
import { openReference, referenceCommand } from '../reference.ts';
import { rangeOf, type Analyses, type Part } from './analyses.ts';
import type { EngineFacts } from './engineFacts.ts';
import { outsideOf } from './outside.ts';

export function registerHover(
  selector: vscode.DocumentSelector,
  analyses: Analyses,
  engineFacts: EngineFacts,
): vscode.Disposable {
  return vscode.languages.registerHoverProvider(selector, {
    provideHover(document, position) {
      const part = analyses.ofDocument(document);
      if (part === undefined) return undefined;
      const offset = document.offsetAt(position);
      const found = hoverAt(part.notebook, part.cell, offset, outsideOf(part, engineFacts));
      if (found === undefined) return undefined;
      const text = new vscode.MarkdownString(`${found.text}${moreAbout(part, offset)}`);
      text.isTrusted = { enabledCommands: [referenceCommand] };
      return new vscode.Hover(text, rangeOf(document, found.place));
    },
  });
}

/** A link to the page of a verb, or of the verb that an option belongs to. */
function moreAbout({ notebook, cell }: Part, offset: number): string {
  const mention = mentionAt(notebook, cell, offset);
  if (mention?.role !== 'verb' && mention?.role !== 'function') return '';
  const title = mention.role === 'verb' ? mention.form.verb : mention.form.name;
  return `\n\n[More in the reference](${openReference(title).toString()})`;
}
