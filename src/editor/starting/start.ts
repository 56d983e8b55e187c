import * as vscode from 'vscode';
import { freeStudyName, type FoundRecordings } from '../../disk/recordings.ts';
import type { EngineThreads } from '../engineThreads.ts';
import { sentence } from '../messages.ts';
import { notebookType } from '../names.ts';
import { serializer } from '../serializer.ts';
import { folderOf, isInProject, liesInFiles, pathFrom, placeOf } from '../places.ts';
import { chosenFiles } from './chosen.ts';
import { entriesOf, foundIn } from './found.ts';

/**
 * A new study, without a question: a file in the folder that was chosen, beside the file that was chosen, or in the workspace's
 * folder, begun from the recordings found there. Without a folder it is not saved yet.
 */
export async function newNotebook(engine: EngineThreads, clicked?: vscode.Uri): Promise<void> {
  const folder = await folderFor(clicked);
  if (folder === undefined) return newUnsaved(engine);
  await writeStudy(engine, folder, await foundIn(folder));
}

/** A new study of files that were chosen, of all recordings of a folder, or, where nothing was, of files that are asked for. */
export async function notebookFromFiles(
  engine: EngineThreads,
  clicked?: vscode.Uri,
  selected?: readonly vscode.Uri[],
): Promise<void> {
  const chosen = await chosenFiles(clicked, selected);
  if (chosen.length === 0) return;
  const only = chosen.length === 1 ? chosen[0] : undefined;
  if (only !== undefined && (await isFolder(only))) {
    const found = await foundIn(only);
    if (found.paths.length === 0) return void vscode.window.showWarningMessage(sentence('sheet.recordings', {}));
    return writeBeside(engine, only, found);
  }
  const raw = folderOf(chosen[0]);
  const besides = (await entriesOf(raw)).map(({ name }) => name);
  const paths = chosen.map((file) => pathFrom(raw, file));
  await writeBeside(engine, raw, { paths, besides });
}

async function folderFor(clicked: vscode.Uri | undefined): Promise<vscode.Uri | undefined> {
  if (clicked !== undefined && liesInFiles(clicked)) return (await isFolder(clicked)) ? clicked : folderOf(clicked);
  const shown = vscode.window.activeNotebookEditor?.notebook.uri ?? vscode.window.activeTextEditor?.document.uri;
  const active = shown === undefined ? undefined : vscode.workspace.getWorkspaceFolder(shown);
  const folder = (active ?? vscode.workspace.workspaceFolders?.at(0))?.uri;
  return folder !== undefined && liesInFiles(folder) ? folder : undefined;
}

const isFolder = (uri: vscode.Uri): Thenable<boolean> =>
  vscode.workspace.fs.stat(uri).then(
    ({ type }) => (type & vscode.FileType.Directory) !== 0,
    () => false,
  );

/** A folder of raw files stays raw: the notebook goes beside it, as long as that is still inside the project. */
async function writeBeside(engine: EngineThreads, raw: vscode.Uri, { paths, besides }: FoundRecordings): Promise<void> {
  const folder = folderOf(raw);
  const project = placeOf(raw);
  const isInside = project !== undefined && isInProject(project, folder);
  if (!isInside || paths.some((path) => path.includes('/'))) return writeStudy(engine, raw, { paths, besides });
  const prefix = pathFrom(folder, raw);
  const below = (path: string): string => `${prefix}/${path}`;
  await writeStudy(engine, folder, { paths: paths.map(below), besides: besides.map(below) });
}

async function writeStudy(
  engine: EngineThreads,
  folder: vscode.Uri,
  { paths, besides }: FoundRecordings,
): Promise<void> {
  const place = placeOf(folder);
  if (place === undefined) return;
  const text = await engine.starter(place, paths, besides);
  const taken = (await entriesOf(folder)).map(({ name }) => name);
  const target = vscode.Uri.joinPath(folder, freeStudyName(taken));
  await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(text));
  await vscode.commands.executeCommand('vscode.openWith', target, notebookType);
}

async function newUnsaved(engine: EngineThreads): Promise<void> {
  const text = await engine.starter({ folder: 'untitled:', root: '', saved: false }, [], []);
  const { token } = new vscode.CancellationTokenSource();
  const data = await serializer.deserializeNotebook(new TextEncoder().encode(text), token);
  const notebook = await vscode.workspace.openNotebookDocument(notebookType, data);
  await vscode.window.showNotebookDocument(notebook);
}
