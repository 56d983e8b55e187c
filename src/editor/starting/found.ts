import * as vscode from 'vscode';
import { recordingsBelow, type Entry, type FoundRecordings } from '../../disk/recordings.ts';

/** The recordings of a folder, or of the first one in it that holds some. */
export const foundIn = (folder: vscode.Uri): Promise<FoundRecordings> =>
  recordingsBelow((below) => entriesOf(below === undefined ? folder : vscode.Uri.joinPath(folder, below)));

/** A folder's entries; none of a folder that can't be read. */
export const entriesOf = (folder: vscode.Uri): Thenable<Entry[]> =>
  vscode.workspace.fs.readDirectory(folder).then(
    (entries) => entries.map(([name, type]) => ({ name, folder: (type & vscode.FileType.Directory) !== 0 })),
    () => [],
  );
