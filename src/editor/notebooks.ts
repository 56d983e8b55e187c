import * as vscode from 'vscode';
import type { ProjectFolders } from '../engine/service.ts';
import { notebookType } from './names.ts';
import { folderOf, placeOf } from './places.ts';

/** Where a notebook's raw files are looked for: its folder, within its workspace folder; undefined while unsaved. */
export function foldersOf({ uri }: { readonly uri: vscode.Uri }): ProjectFolders | undefined {
  const place = placeOf(folderOf(uri));
  if (place === undefined) return undefined;
  // Git runs what a repository's own settings name, which only a trusted one may.
  const folders = { ...place, notebook: uri.toString() };
  return vscode.workspace.isTrusted ? folders : { ...folders, history: false };
}

/** The same of a notebook that is to be run: one that is not saved yet lies nowhere, and has no raw files. */
export const runFoldersOf = (notebook: { readonly uri: vscode.Uri }): ProjectFolders =>
  foldersOf(notebook) ?? {
    folder: notebook.uri.toString(),
    root: '',
    notebook: notebook.uri.toString(),
    saved: false,
  };

/** The notebook's cells in our language, in order. */
export function codeCells(notebook: vscode.NotebookDocument, language: string): vscode.NotebookCell[] {
  return notebook
    .getCells()
    .filter(({ kind, document }) => kind === vscode.NotebookCellKind.Code && document.languageId === language);
}

/** The texts of cells, in their order. */
export const textsOf = (cells: readonly vscode.NotebookCell[]): string[] =>
  cells.map(({ document }) => document.getText());

/** What the editor counts cells as, from 1: those of prose count, too. */
export const numbersOf = (cells: readonly vscode.NotebookCell[]): number[] => cells.map(({ index }) => index + 1);

/** The notebook a command is about: the one that the toolbar or another command names, else the one that is shown. */
export function activeNotebook(given: unknown): vscode.NotebookDocument | undefined {
  const named = given as { readonly notebookEditor?: { readonly notebookUri?: vscode.Uri } } | undefined;
  const uri = given instanceof vscode.Uri ? given : named?.notebookEditor?.notebookUri;
  const wanted = (uri ?? vscode.window.activeNotebookEditor?.notebook.uri)?.toString();
  return vscode.workspace.notebookDocuments.find(
    (one) => one.notebookType === notebookType && one.uri.toString() === wanted,
  );
}
