import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { success, type Result } from '../result/result.ts';
import { digest } from './bytes.ts';
import {
  makeFolder,
  stageProduct,
  unmakeFolder,
  type Product,
  type Put,
  type Staged,
  type WriteOptions,
} from './writing.ts';

/** A folder of files that one command makes from one notebook. */
export interface MadeFolder {
  readonly path: string;
  /** Name of the notebook's file. */
  readonly notebook: string;
  readonly command: string;
  /** What each file is, in words: `figure`. */
  readonly kind: string;
}

export interface FolderFile {
  /** Its name within the folder. */
  readonly file: string;
  readonly content: string | Uint8Array;
}

/** Name of the list, kept in the folder, of the files that were made: by it they are known as ours. */
export const listName = 'washboard-files.json';

interface Entry {
  readonly file: string;
  readonly notebook: string;
  readonly command: string;
  readonly sha256: string;
}

/**
 * Writes files into a folder, and a list of them. A file that is there is replaced only where the list says that the same command
 * made it from the same notebook, and where nobody has changed it since. All files are written or, where one can't be, none.
 *
 * @returns names of the files that an earlier run made and that are no longer made; they are left where they are
 */
export function writeFolder(
  folder: MadeFolder,
  files: readonly FolderFile[],
  options: WriteOptions,
  put?: Put,
): Result<{ readonly stale: readonly string[] }> {
  const { path, kind, notebook, command } = folder;
  const placed = makeFolder(path);
  if (!placed.ok) return placed;
  const ours = (entry: Entry | undefined): boolean => entry?.notebook === notebook && entry.command === command;
  const before = new Map(listed(path).map((entry) => [entry.file, entry]));
  const now = new Map(before);
  const made = files.map((one) => ({ ...one, sha256: digest(one.content) }));
  for (const { file, sha256 } of made) now.set(file, { file, notebook, command, sha256 });
  const names = new Set(files.map(({ file }) => file));
  const kept = [...now.values()].filter(({ file }) => names.has(file) || existsSync(join(path, file)));
  const products = made.map(({ file, content, sha256 }): Product => {
    const known = before.get(file);
    const own = ours(known) ? [sha256, known?.sha256] : [sha256];
    return { path: join(path, file), content, kind, isOurs: (found) => own.includes(digest(found)) };
  });
  const written = writeAll([...products, listOf(path, kept)], options, put);
  if (written.ok)
    return success({ stale: kept.filter((one) => ours(one) && !names.has(one.file)).map(({ file }) => file) });
  if (placed.value !== undefined) unmakeFolder(path, placed.value);
  return written;
}

/** Writes all products or, where one can't be, none. */
function writeAll(products: readonly Product[], options: WriteOptions, put?: Put): Result<void> {
  const staged: Staged[] = [];
  for (const product of products) {
    const one = stageProduct(product, options, put);
    if (!one.ok) {
      for (const { drop } of staged) drop();
      return one;
    }
    staged.push(one.value);
  }
  for (const [i, { commit }] of staged.entries()) {
    const one = commit();
    if (one.ok) continue;
    for (const { drop } of staged.slice(i)) drop();
    return one;
  }
  return success(undefined);
}

function listOf(folder: string, entries: readonly Entry[]): Product {
  const files = [...entries].sort((a, b) => (a.file < b.file ? -1 : 1));
  const content = `${JSON.stringify({ washboard: 1, files }, null, 2)}\n`;
  const isOurs = (found: Buffer): boolean => parsed(found.toString()) !== undefined;
  return { path: join(folder, listName), content, kind: 'list of files', isOurs };
}

function listed(folder: string): readonly Entry[] {
  const path = join(folder, listName);
  if (!existsSync(path)) return [];
  try {
    return parsed(readFileSync(path, 'utf8')) ?? [];
  } catch {
    // What can't be read lists nothing, and will not be written over either.
    return [];
  }
}

function parsed(text: string): readonly Entry[] | undefined {
  try {
    const { washboard, files } = JSON.parse(text) as { washboard?: unknown; files?: unknown };
    if (washboard !== 1 || !Array.isArray(files)) return undefined;
    return (files as unknown[]).filter(isEntry);
  } catch {
    return undefined;
  }
}

/** A name that leads out of the folder is none of ours, whoever wrote it into the list. */
const isEntry = (given: unknown): given is Entry => {
  const { file, notebook, command, sha256 } = (given ?? {}) as Record<string, unknown>;
  return [file, notebook, command, sha256].every((text) => typeof text === 'string') && !/[\\/]/.test(String(file));
};
