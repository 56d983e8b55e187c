import { open } from 'node:fs/promises';
import type * as vscode from 'vscode';
import { firstBytes } from '../firstBytes.ts';

export { nodeDisk } from '../../disk/nodeDisk.ts';

/** The first bytes of a file; of one that lies on no disk of this machine the whole. */
export async function head(file: vscode.Uri, bytes: number): Promise<Uint8Array> {
  if (file.scheme !== 'file') return firstBytes(file, bytes);
  const handle = await open(file.fsPath).catch(() => undefined);
  if (handle === undefined) return new Uint8Array();
  try {
    const { buffer, bytesRead } = await handle.read(new Uint8Array(bytes), 0, bytes, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}
