import * as vscode from 'vscode';
import type { CellEdit } from '../../language/services/rename.ts';
import { errorOf } from '../messages.ts';
import { rangeOf, type Analyses } from './analyses.ts';
import type { Program } from './program.ts';
import { language } from './service.ts';

/** Over all cells in one edit, which is undone in one step. */
export function registerRename(selector: vscode.DocumentSelector, analyses: Analyses): vscode.Disposable {
  return vscode.languages.registerRenameProvider(selector, {
    prepareRename(document, position) {
      const part = analyses.ofDocument(document);
      const found = part && language.renamableAt(part.notebook, part.cell, document.offsetAt(position));
      if (!found) throw errorOf('rename.nothing', {});
      return { range: rangeOf(document, found.place), placeholder: found.name };
    },
    provideRenameEdits(document, position, to) {
      const part = analyses.ofDocument(document);
      if (part === undefined) return undefined;
      const found = language.renameAt(part.notebook, part.cell, document.offsetAt(position), to);
      if (found === undefined) throw errorOf('rename.nothing', {});
      // The editor shows the sentence at the name.
      if (!found.ok) throw new Error(found.failure.message);
      return editOf(part, found.value);
    },
  });
}

/** The service's edits as one of the editor's, over as many documents as they touch. */
export function editOf({ documents }: Program, edits: readonly CellEdit[]): vscode.WorkspaceEdit {
  const edit = new vscode.WorkspaceEdit();
  for (const { cell, place, text } of edits) edit.replace(documents[cell].uri, rangeOf(documents[cell], place), text);
  return edit;
}
