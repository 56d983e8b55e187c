import * as vscode from 'vscode';
import { relativePath, resolvedPath } from '../disk/addresses.ts';
import type { ProjectFolders } from '../engine/service.ts';
import { fileOf } from '../result/fileNames.ts';
import { here } from './here.ts';

/** The folder that a file lies in. */
export const folderOf = (file: vscode.Uri): vscode.Uri => vscode.Uri.joinPath(file, '..');

/** The last part of an address. */
export const nameOf = ({ path }: vscode.Uri): string => fileOf(path);

/** The path from a folder to what lies in the same file system, with `/`. */
export const pathFrom = (folder: vscode.Uri, file: vscode.Uri): string => relativePath(folder.path, file.path);

/** Whether the editor has a file system for an address: a notebook that is not saved yet lies in none. */
export const liesInFiles = ({ scheme }: vscode.Uri): boolean =>
  scheme !== 'untitled' && vscode.workspace.fs.isWritableFileSystem(scheme) !== undefined;

/** A folder as the engine is told of it, with the project's: the workspace's that it lies in, or else as the disk has it. */
export function placeOf(folder: vscode.Uri): ProjectFolders | undefined {
  if (!liesInFiles(folder)) return undefined;
  const workspace = vscode.workspace.getWorkspaceFolder(folder)?.uri;
  const local = here().pathOf(folder);
  if (local !== undefined) {
    const root = workspace && here().pathOf(workspace);
    return { folder: local, root: root ?? here().projectRoot(local) };
  }
  const base = folder.with({ path: '/' }).toString();
  const root = workspace?.with({ path: '/' }).toString() === base ? workspace : folder;
  return { folder: resolvedPath('/', folder.path), root: resolvedPath('/', root.path), base };
}

/** The address of a path in a folder that the engine was told of. */
export const addressIn = ({ folder, base }: ProjectFolders, path: string): vscode.Uri =>
  base === undefined
    ? vscode.Uri.joinPath(vscode.Uri.file(folder), path)
    : vscode.Uri.parse(base).with({ path: resolvedPath(folder, path) });

/** Whether an address lies in the project. */
export function isInProject(folders: ProjectFolders, address: vscode.Uri): boolean {
  const root = addressIn({ ...folders, folder: folders.root }, '.');
  const isSame = root.with({ path: '/' }).toString() === address.with({ path: '/' }).toString();
  return isSame && !/^\.\.(\/|$)/.test(pathFrom(root, address.with({ path: resolvedPath('/', address.path) })));
}
