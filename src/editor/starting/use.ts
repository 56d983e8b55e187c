import * as vscode from 'vscode';
import { isRecordingName } from '../../disk/recordings.ts';
import { filesText } from '../../engine/filesText.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { languageId, notebookType } from '../names.ts';
import { foldersOf } from '../notebooks.ts';
import { folderOf, isInProject, nameOf, pathFrom } from '../places.ts';
import { notebookFromFiles } from './start.ts';

/** Puts recordings into the notebook that is open, as a cell of its own at the end; without one, begins a study with them. */
export async function useRecordings(engine: EngineThreads, addresses: unknown): Promise<void> {
  if (!Array.isArray(addresses)) return;
  const files = addresses.filter((one): one is string => typeof one === 'string').map((one) => vscode.Uri.parse(one));
  for (const { notebook, viewColumn } of vscode.window.visibleNotebookEditors) {
    const load = notebook.notebookType === notebookType ? await loadOf(notebook.uri, files) : undefined;
    if (load === undefined) continue;
    const edit = new vscode.WorkspaceEdit();
    const cell = new vscode.NotebookCellData(vscode.NotebookCellKind.Code, load, languageId);
    edit.set(notebook.uri, [vscode.NotebookEdit.insertCells(notebook.cellCount, [cell])]);
    await vscode.workspace.applyEdit(edit);
    const range = new vscode.NotebookRange(notebook.cellCount - 1, notebook.cellCount);
    const editor = await vscode.window.showNotebookDocument(notebook, {
      selections: [range],
      ...(viewColumn === undefined ? {} : { viewColumn }),
    });
    return editor.revealRange(range);
  }
  await notebookFromFiles(engine, undefined, files);
}

/** The statement that loads files in a notebook, by the narrowest pattern; undefined if one lies outside of its project. */
async function loadOf(notebook: vscode.Uri, files: readonly vscode.Uri[]): Promise<string | undefined> {
  const folders = foldersOf({ uri: notebook });
  if (folders === undefined || files.length === 0) return undefined;
  if (!files.every((file) => isInProject(folders, file))) return undefined;
  const within = (file: vscode.Uri): string => pathFrom(folderOf(notebook), file);
  const raw = folderOf(files[0]);
  const beside = await vscode.workspace.fs.readDirectory(raw).then(
    (entries) => entries.map(([name]) => within(vscode.Uri.joinPath(raw, name))),
    () => [],
  );
  return `load ${filesText(files.map(within), beside)}`;
}

/** What files that are dropped into a cell become: the statement that loads those among them that are recordings. */
export async function dropped(
  document: vscode.TextDocument,
  list: string,
): Promise<vscode.DocumentDropEdit | undefined> {
  const notebook = vscode.workspace.notebookDocuments.find((one) =>
    one.getCells().some((cell) => cell.document === document),
  );
  const files = list
    .split(/\r?\n/)
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => vscode.Uri.parse(line))
    .filter((file) => isRecordingName(nameOf(file)));
  const text = notebook && (await loadOf(notebook.uri, files));
  if (text === undefined) return undefined;
  return new vscode.DocumentDropEdit(text, vscode.l10n.t('Load these recordings'));
}
