import * as vscode from 'vscode';
import { isRecordingName, looksLikeRecording, recordingsBelow } from '../../disk/recordings.ts';
import { here } from '../here.ts';
import { liesInFiles } from '../places.ts';

const headBytes = 4096;

/** Under this name a workspace remembers that its welcome was unfolded. */
const unfolded = 'washboard.welcomed';

/** Lets the explorer have the welcome while it is wanted. The explorer folds all that is added to it: it is unfolded once, then the reader's own. */
export async function welcome(view: vscode.TreeView<undefined>, memory: vscode.Memento): Promise<void> {
  const wanted = await wantsStudy();
  await vscode.commands.executeCommand('setContext', 'washboard.wantsStudy', wanted);
  if (!wanted || memory.get(unfolded) === true) return;
  await memory.update(unfolded, true);
  // It is there a moment after it is wanted.
  for (let tries = 0; tries < 20 && !view.visible; tries++) {
    await new Promise((go) => setTimeout(go, 250));
    await view.reveal(undefined, { select: false, focus: false });
  }
}

/** Whether a workspace holds what is likely a recording and no notebook yet: in its folders, and one floor below. */
async function wantsStudy(): Promise<boolean> {
  const folders = (vscode.workspace.workspaceFolders ?? []).filter(({ uri }) => liesInFiles(uri));
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
    for (const path of candidates)
      likely ||= looksLikeRecording(path, await here().head(vscode.Uri.joinPath(uri, path), headBytes));
  }
  return likely;
}
