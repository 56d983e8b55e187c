import * as vscode from 'vscode';
import type { Diagnostic } from '../../language/diagnostic.ts';
import type { Action } from '../../language/services/fixes.ts';
import { spanOf, rangeOf, type Analyses, type Part } from './analyses.ts';
import type { Diagnostics } from './diagnostics.ts';
import { editOf } from './rename.ts';
import { language } from './service.ts';

const kinds: Readonly<Record<Action['kind'], vscode.CodeActionKind>> = {
  quickfix: vscode.CodeActionKind.QuickFix,
  refactor: vscode.CodeActionKind.RefactorRewrite,
};

/** Quick fixes of the problems at a place, and conversions of its quantities. */
export function registerCodeActions(
  selector: vscode.DocumentSelector,
  analyses: Analyses,
  diagnostics: Diagnostics,
): vscode.Disposable {
  return vscode.languages.registerCodeActionsProvider(
    selector,
    {
      provideCodeActions(document, range, { diagnostics: shown, only }) {
        const part = analyses.ofDocument(document);
        if (part === undefined) return undefined;
        const place = spanOf(document, range);
        const own = new Set(part.notebook.problems[part.cell]);
        const around = diagnostics
          .problemsOf(part, part.cell)
          .filter((problem) => !own.has(problem) && problem.place.from <= place.to && place.from <= problem.place.to);
        return [
          ...language.actionsAt(part.notebook, part.cell, place),
          ...around.flatMap((problem) => fixesAround(part, problem)),
        ]
          .filter(({ kind }) => only === undefined || only.contains(kinds[kind]))
          .map((action) => actionOf(part, action, shown));
      },
    },
    { providedCodeActionKinds: Object.values(kinds) },
  );
}

/** The fixes that a problem brings, and the options that would settle it. */
function fixesAround({ notebook, cell }: Part, problem: Diagnostic): readonly Action[] {
  return [...language.fixesOf(notebook, cell, problem), ...language.addOptions(notebook, cell, problem)];
}

function actionOf(part: Part, action: Action, shown: readonly vscode.Diagnostic[]): vscode.CodeAction {
  const { title, kind, edits, problem, preferred } = action;
  const made = new vscode.CodeAction(title, kinds[kind]);
  made.edit = editOf(part, edits);
  if (preferred === true) made.isPreferred = true;
  if (problem !== undefined) {
    const range = rangeOf(part.document, problem.place);
    made.diagnostics = shown.filter(({ message, range: at }) => message === problem.message && at.isEqual(range));
  }
  return made;
}
