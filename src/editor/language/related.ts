import * as vscode from 'vscode';
import { cellNameOf, cellWords } from '../../language/cellName.ts';
import type { LanguageMessage } from '../../language/facts.ts';
import type { Diagnostic } from '../../language/diagnostic.ts';
import { locationOf, type Analysis } from './analyses.ts';

/** Links to the statements that a problem is about besides its own, each called by its cell. */
export function relatedTo(analysis: Analysis, problem: Diagnostic): vscode.DiagnosticRelatedInformation[] {
  const { notebook } = analysis;
  return namesIn(problem as LanguageMessage).flatMap((name) => {
    const index = notebook.bindings.get(name);
    if (index === undefined) return [];
    const { cell, name: bound, place, line } = notebook.statements[index];
    const where = `${name}: ${cellWords(cellNameOf(notebook, cell))}, line ${line}`;
    return [new vscode.DiagnosticRelatedInformation(locationOf(analysis, cell, bound?.place ?? place), where)];
  });
}

/** Bound names whose statements a message points to. */
function namesIn(message: LanguageMessage): readonly string[] {
  if (message.code === 'name.twice') return [message.facts.name];
  if (message.code === 'name.failed') return message.facts.names;
  return message.code === 'name.circle' ? message.facts.members : [];
}
