import { randomUUID } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { dirname } from 'node:path';

/**
 * Writes a file of the program's own, for its user alone: beside its place and then renamed, so that whoever reads it finds all
 * of it or nothing. Its folder is made; of a writing that fails nothing is left.
 */
export async function putInPlace(path: string, content: string | Uint8Array): Promise<void> {
  const beside = `${path}.${randomUUID()}.part`;
  try {
    await fs.mkdir(dirname(path), { recursive: true, mode: 0o700 });
    await fs.writeFile(beside, content, { flag: 'wx', mode: 0o600 });
    await fs.rename(beside, path);
  } catch (error) {
    await fs.rm(beside, { force: true }).catch(() => undefined);
    throw error;
  }
}
