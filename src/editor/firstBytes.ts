import * as vscode from 'vscode';

/** The first bytes of a file that the editor gives as a whole alone; none where it can't be read. */
export const firstBytes = (file: vscode.Uri, bytes: number): Promise<Uint8Array> =>
  Promise.resolve(vscode.workspace.fs.readFile(file)).then(
    (whole) => whole.subarray(0, bytes),
    () => new Uint8Array(),
  );
