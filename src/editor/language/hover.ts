import * as vscode from 'vscode';
import { openReference, referenceCommand } from '../reference.ts';
import { rangeOf, type Analyses, type Part } from './analyses.ts';
import type { EngineFacts } from './engineFacts.ts';
import { outsideOf } from './outside.ts';
import { language } from './service.ts';

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
      const found = language.hoverAt(part.notebook, part.cell, offset, outsideOf(part, engineFacts));
      if (found === undefined) return undefined;
      const text = new vscode.MarkdownString(`${found.text}${moreAbout(part, offset)}`);
      text.isTrusted = { enabledCommands: [referenceCommand] };
      return new vscode.Hover(text, rangeOf(document, found.place));
    },
  });
}

/** A link to the page of a verb, or of the verb that an option belongs to. */
function moreAbout({ notebook, cell }: Part, offset: number): string {
  const occurrence = language.occurrenceAt(notebook, cell, offset);
  if (occurrence?.role !== 'verb' && occurrence?.role !== 'function') return '';
  const title = occurrence.role === 'verb' ? occurrence.form.verb : occurrence.form.name;
  return `\n\n[More in the reference](${openReference(title).toString()})`;
}
