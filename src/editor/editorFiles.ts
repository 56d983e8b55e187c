import * as vscode from 'vscode';
import type { EditorFiles, EditorStat } from '../disk/editorFiles.ts';

/** The file system that the editor knows by the address of its top. */
export function editorFiles(base: string): EditorFiles {
  const top = vscode.Uri.parse(base);
  const at = (path: string): vscode.Uri => top.with({ path });
  return {
    stat: (path) =>
      present(
        Promise.resolve(vscode.workspace.fs.stat(at(path))).then(({ type, size, mtime }) => ({
          ...typeOf(type),
          size,
          changed: mtime,
        })),
      ),
    list: (path) =>
      present(
        Promise.resolve(vscode.workspace.fs.readDirectory(at(path))).then((entries) =>
          entries.map(([name, type]) => ({ name, stat: typeOf(type) })),
        ),
      ),
    read: async (path) => {
      try {
        const bytes = await vscode.workspace.fs.readFile(at(path));
        // A part of a larger buffer would be sent with all of it.
        return { bytes: bytes.byteLength === bytes.buffer.byteLength ? bytes : bytes.slice() };
      } catch (error) {
        return { refused: error instanceof vscode.FileSystemError ? (systemCodes[error.code] ?? error.code) : 'EIO' };
      }
    },
  };
}

/** The editor's words for what a system refuses. */
const systemCodes: Readonly<Record<string, string>> = {
  FileNotFound: 'ENOENT',
  FileIsADirectory: 'EISDIR',
  FileNotADirectory: 'ENOTDIR',
  NoPermissions: 'EACCES',
};

const typeOf = (type: vscode.FileType): Pick<EditorStat, 'kind' | 'isLink'> => ({
  kind: (type & vscode.FileType.Directory) !== 0 ? 'folder' : (type & vscode.FileType.File) !== 0 ? 'file' : 'other',
  isLink: (type & vscode.FileType.SymbolicLink) !== 0,
});

/** What the file system says, undefined where it says that there is nothing. */
const present = <T>(found: Promise<T>): Promise<T | undefined> =>
  found.catch((error: unknown) => {
    if (error instanceof vscode.FileSystemError) return undefined;
    throw error;
  });
