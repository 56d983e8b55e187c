import * as vscode from 'vscode';
import { languageId, notebookType } from '../names.ts';
import { codeCells, numbersOf } from '../notebooks.ts';

/** Cells of every notebook, whatever its file system, and script files. */
export const selector: vscode.DocumentSelector = { language: languageId };

/** The documents whose texts make one program: the code cells of a notebook, or one script file. */
export interface Program {
  /** Of the notebook, or of the script. */
  readonly uri: vscode.Uri;
  readonly documents: readonly vscode.TextDocument[];
  /** What the editor counts each as, from 1. */
  readonly numbers: readonly number[];
}

export const isOurs = ({ notebookType: type }: vscode.NotebookDocument): boolean => type === notebookType;

export function programOfNotebook(notebook: vscode.NotebookDocument): Program {
  const cells = codeCells(notebook, languageId);
  return { uri: notebook.uri, documents: cells.map(({ document }) => document), numbers: numbersOf(cells) };
}

const programOfScript = (document: vscode.TextDocument): Program => ({
  uri: document.uri,
  documents: [document],
  numbers: [1],
});

/**
 * The program that a document is part of. Undefined for a cell whose notebook is not open, as in a comparison of two
 * versions: alone it would seem full of unknown names.
 */
export function programOf(document: vscode.TextDocument): Program | undefined {
  if (document.languageId !== languageId) return undefined;
  const notebook = vscode.workspace.notebookDocuments.find((one) =>
    one.getCells().some((cell) => cell.document === document),
  );
  if (notebook !== undefined) return programOfNotebook(notebook);
  return document.uri.scheme === 'vscode-notebook-cell' ? undefined : programOfScript(document);
}

/** Every program that is open. */
export function openPrograms(): readonly Program[] {
  const scripts = vscode.workspace.textDocuments.filter(
    ({ languageId: language, uri }) => language === languageId && uri.scheme !== 'vscode-notebook-cell',
  );
  return [...vscode.workspace.notebookDocuments.filter(isOurs).map(programOfNotebook), ...scripts.map(programOfScript)];
}
