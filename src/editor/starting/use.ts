import * as vscode from 'vscode';
import { canBeWritten, filesText } from '../../engine/filesText.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { sentence } from '../messages.ts';
import { languageId, notebookType } from '../names.ts';
import { foldersOf } from '../notebooks.ts';
import { folderOf, isInProject, pathFrom } from '../places.ts';
import { entriesOf } from './found.ts';
import { pickedNear } from './near.ts';
import { notebookFromFiles } from './start.ts';

/** Puts recordings into the notebook that is open, as a cell of its own at the end; without one, begins a study with them. */
export async function useRecordings(engine: EngineThreads, addresses: unknown): Promise<void> {
  if (!Array.isArray(addresses)) return;
  const files = addresses.filter((one): one is string => typeof one === 'string').map((one) => vscode.Uri.parse(one));
  for (const editor of ownEditors()) {
    const load = await loadOf(editor.notebook.uri, files);
    if (load !== undefined) return insert(editor, load, editor.notebook.cellCount);
  }
  await notebookFromFiles(engine, undefined, files);
}

/**
 * Puts a load of recordings into the notebook that is open, below the cell that its reader is at.
 * @param selected those chosen in the explorer; without any, they are picked from what lies near the notebook
 */
export async function insertLoad(clicked?: vscode.Uri, selected?: readonly vscode.Uri[]): Promise<void> {
  const editor = ownEditors().at(0);
  if (editor === undefined) return void vscode.window.showWarningMessage(sentence('load.nowhere', {}));
  const { uri, cellCount } = editor.notebook;
  if (foldersOf({ uri }) === undefined) return void vscode.window.showWarningMessage(sentence('notebook.unsaved', {}));
  const chosen = selected ?? (clicked && [clicked]) ?? (await pickedNear(folderOf(uri)));
  if (chosen === undefined || chosen.length === 0) return;
  const load = await loadOf(uri, chosen);
  if (load === undefined) {
    const isNamed = chosen.every((file) => canBeWritten(pathFrom(folderOf(uri), file)));
    return void vscode.window.showWarningMessage(sentence(isNamed ? 'load.outside' : 'load.named', {}));
  }
  await insert(editor, load, Math.min(editor.selection.end, cellCount));
}

/** Our notebooks that are seen, the one that is worked in first. */
function ownEditors(): readonly vscode.NotebookEditor[] {
  const { activeNotebookEditor: active, visibleNotebookEditors: all } = vscode.window;
  const own = all.filter(({ notebook }) => notebook.notebookType === notebookType);
  return [...own.filter((one) => one === active), ...own.filter((one) => one !== active)];
}

async function insert({ notebook, viewColumn }: vscode.NotebookEditor, load: string, at: number): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  const cell = new vscode.NotebookCellData(vscode.NotebookCellKind.Code, load, languageId);
  edit.set(notebook.uri, [vscode.NotebookEdit.insertCells(at, [cell])]);
  await vscode.workspace.applyEdit(edit);
  const range = new vscode.NotebookRange(at, at + 1);
  const editor = await vscode.window.showNotebookDocument(notebook, {
    selections: [range],
    ...(viewColumn === undefined ? {} : { viewColumn }),
  });
  editor.revealRange(range);
}

/**
 * The statement that loads files in a notebook, by the narrowest pattern; undefined if one lies outside of its project or has a
 * name that no notebook can write.
 */
export async function loadOf(
  notebook: vscode.Uri,
  files: readonly vscode.Uri[],
  coming: readonly vscode.Uri[] = [],
): Promise<string | undefined> {
  const folders = foldersOf({ uri: notebook });
  if (folders === undefined || files.length === 0) return undefined;
  if (!files.every((file) => isInProject(folders, file))) return undefined;
  const within = (file: vscode.Uri): string => pathFrom(folderOf(notebook), file);
  if (!files.map(within).every(canBeWritten)) return undefined;
  const raw = folderOf(files[0]);
  const beside = (await entriesOf(raw)).map(({ name }) => within(vscode.Uri.joinPath(raw, name)));
  return `load ${filesText(files.map(within), [...new Set([...beside, ...coming.map(within)])])}`;
}
