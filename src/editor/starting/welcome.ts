import { open } from 'node:fs/promises';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { isRecordingName, looksLikeRecording, recordingsBelow } from '../../disk/recordings.ts';

const headBytes = 4096;

/** Whether a workspace holds what is likely a recording and no notebook yet: in its folders, and one floor below. */
export async function wantsStudy(): Promise<boolean> {
  const folders = (vscode.workspace.workspaceFolders ?? []).filter(({ uri }) => uri.scheme === 'file');
  let likely = false;
  for (const { uri } of folders) {
    const notebooks: string[] = [];
    const { paths } = await recordingsBelow(async (below) => {
      const folder = below === undefined ? uri : vscode.Uri.joinPath(uri, below);
      const entries = await vscode.workspace.fs.readDirectory(folder).then(
        (found) => found,
        () => [],
      );
      notebooks.push(...entries.map(([name]) => name).filter((name) => name.endsWith('.washboard.md')));
      return entries.map(([name, type]) => ({ name, folder: (type & vscode.FileType.Directory) !== 0 }));
    });
    if (notebooks.length > 0) return false;
    const candidates = paths.filter(isRecordingName).slice(0, 3);
    for (const path of candidates) likely ||= looksLikeRecording(path, await headOf(join(uri.fsPath, path)));
  }
  return likely;
}

async function headOf(file: string): Promise<Uint8Array> {
  const handle = await open(file).catch(() => undefined);
  if (handle === undefined) return new Uint8Array();
  try {
    const { buffer, bytesRead } = await handle.read(new Uint8Array(headBytes), 0, headBytes, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}
