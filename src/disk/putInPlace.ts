import { randomUUID } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { dirname } from 'node:path';
import { isRefusalOf } from '../result/environment.ts';

/** How often a writing begins anew whose folder was removed meanwhile. */
const tries = 5;

/**
 * Writes a file of the program's own, for its user alone: beside its place and then renamed, so that whoever reads it finds all
 * of it or nothing. Its folder is made; of a writing that fails nothing is left.
 */
export async function putInPlace(path: string, content: string | Uint8Array): Promise<void> {
  for (let left = tries - 1; ; left--)
    try {
      return await put(path, content);
    } catch (error) {
      if (left === 0 || !isRefusalOf(error, 'ENOENT')) throw error;
    }
}

async function put(path: string, content: string | Uint8Array): Promise<void> {
  const beside = `${path}.${randomUUID()}.part`;
  try {
    await makeFolder(dirname(path));
    await fs.writeFile(beside, content, { flag: 'wx', mode: 0o600 });
    await fs.rename(beside, path);
  } catch (error) {
    await fs.rm(beside, { force: true }).catch(() => undefined);
    throw error;
  }
}

/** Makes a folder and those above it, one by one: asked for all at once, Node says of a disk that can only be read that nothing is there. */
async function makeFolder(path: string): Promise<void> {
  try {
    return await makeOne(path);
  } catch (error) {
    if (!isRefusalOf(error, 'ENOENT') || dirname(path) === path) throw error;
  }
  await makeFolder(dirname(path));
  await makeOne(path);
}

async function makeOne(path: string): Promise<void> {
  try {
    await fs.mkdir(path, { mode: 0o700 });
  } catch (error) {
    if (!isRefusalOf(error, 'EEXIST')) throw error;
  }
}
