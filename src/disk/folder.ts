import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { success, type Refused, type Result } from '../result/result.ts';
import { digest } from './bytes.ts';
import { makeFolder, unmakeFolder, writeProduct, type WriteOptions } from './writing.ts';

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
 * made it from the same notebook, and where nobody has changed it since.
 *
 * @returns names of the files that an earlier run made and that are no longer made; they are left where they are
 */
export function writeFolder(
  folder: MadeFolder,
  files: readonly FolderFile[],
  options: WriteOptions,
): Result<{ readonly stale: readonly string[] }> {
  const made = makeFolder(folder.path);
  if (!made.ok) return made;
  const before = listed(folder.path);
  const now = new Map(before.map((entry) => [entry.file, entry]));
  const ours = ({ notebook, command }: Entry): boolean => notebook === folder.notebook && command === folder.command;
  let refused: Refused | undefined;
  let count = 0;
  for (const { file, content } of files) {
    const known = now.get(file);
    const written = writeFile(
      folder,
      { file, content },
      known !== undefined && ours(known) ? known : undefined,
      options,
    );
    refused = written.ok ? undefined : written;
    if (refused !== undefined) break;
    count++;
    now.set(file, { file, notebook: folder.notebook, command: folder.command, sha256: digest(content) });
  }
  if (refused !== undefined && count === 0) {
    if (made.value !== undefined) unmakeFolder(folder.path, made.value);
    return refused;
  }
  const kept = [...now.values()].filter(({ file }) => existsSync(join(folder.path, file)));
  // What was written before a refusal is known as ours too.
  const list = writeList(folder.path, kept, options);
  if (refused !== undefined) return refused;
  if (!list.ok) return list;
  const names = new Set(files.map(({ file }) => file));
  return success({ stale: kept.filter((entry) => ours(entry) && !names.has(entry.file)).map(({ file }) => file) });
}

function writeFile(
  { path: folder, kind }: MadeFolder,
  { file, content }: FolderFile,
  known: Entry | undefined,
  options: WriteOptions,
): Result<void> {
  const own = digest(content);
  const isOurs = (found: Buffer): boolean => [known?.sha256, own].includes(digest(found));
  return writeProduct({ path: join(folder, file), content, kind, isOurs }, options);
}

function writeList(folder: string, entries: readonly Entry[], options: WriteOptions): Result<void> {
  const files = [...entries].sort((a, b) => (a.file < b.file ? -1 : 1));
  const content = `${JSON.stringify({ washboard: 1, files }, null, 2)}\n`;
  const isOurs = (found: Buffer): boolean => parsed(found.toString()) !== undefined;
  return writeProduct({ path: join(folder, listName), content, kind: 'list of files', isOurs }, options);
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
