import * as vscode from 'vscode';
import { spanOf, type Analyses } from './analyses.ts';
import type { EngineFacts } from './engineFacts.ts';
import { outsideOf } from './outside.ts';
import { language } from './service.ts';

export function registerInlayHints(
  selector: vscode.DocumentSelector,
  analyses: Analyses,
  engineFacts: EngineFacts,
): vscode.Disposable {
  const changed = new vscode.EventEmitter<void>();
  return vscode.Disposable.from(
    changed,
    engineFacts.onDidChange(() => changed.fire()),
    vscode.languages.registerInlayHintsProvider(selector, {
      onDidChangeInlayHints: changed.event,
      async provideInlayHints(document, range) {
        const part = analyses.ofDocument(document);
        if (part === undefined) return undefined;
        const { from, to } = spanOf(document, range);
        const found = await language.inlayHints(part.notebook, part.cell, outsideOf(part, engineFacts));
        return found
          .filter(({ at }) => from <= at && at <= to)
          .map(({ at, text, tip }) => {
            const hint = new vscode.InlayHint(document.positionAt(at), text);
            hint.paddingLeft = true;
            hint.tooltip = new vscode.MarkdownString(tip);
            return hint;
          });
      },
    }),
  );
}
