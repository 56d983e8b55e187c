import { open } from 'node:fs/promises';
import * as vscode from 'vscode';

export { nodeDisk } from '../../disk/nodeDisk.ts';

/** The first bytes of a file; of one that lies on no disk of this machine the whole. */
export async function head(file: vscode.Uri, bytes: number): Promise<Uint8Array> {
  if (file.scheme !== 'file')
    return vscode.workspace.fs.readFile(file).then(
      (whole) => whole.subarray(0, bytes),
      () => new Uint8Array(),
    );
  const handle = await open(file.fsPath).catch(() => undefined);
  if (handle === undefined) return new Uint8Array();
  try {
    const { buffer, bytesRead } = await handle.read(new Uint8Array(bytes), 0, bytes, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}
