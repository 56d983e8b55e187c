import { refused, success, type Refused, type Result } from '../result/result.ts';
import { promises as fs } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import type { ByteSource } from '../readers/recording.ts';
import type { FileIdentity, Files } from '../values/ports.ts';
import { nearest } from '../units/nearest.ts';
import { heldTo, openFile } from './bytes.ts';
import { Identities } from './identities.ts';
import type { RecordingReader } from './readAll.ts';
import type { KeptStore } from './keptStore.ts';
import { naturalOrder } from './naturalOrder.ts';
import { refuse, tellOf } from './messages.ts';
import { isPattern, levelExpression } from './pattern.ts';
import { slashed } from './slashed.ts';

/**
 * A project's files, read only. Paths are relative to the notebook's folder and must stay inside the project:
 * absolute paths, `..` beyond the root and links that lead out are refused with a sentence.
 *
 * @param folder the notebook's folder, absolute
 * @param root the project's folder, absolute; `folder` lies in it
 * @param read what reads recordings, in whichever threads
 * @param kept where the files' hashes are kept
 */
export function diskFiles(folder: string, root: string, read?: RecordingReader, kept?: KeptStore): Files {
  const identities = new Identities(kept);
  const absoluteOf = (path: string): string => resolve(folder, path);

  async function open(path: string, identity?: FileIdentity): Promise<ByteSource> {
    const absolute = absoluteOf(path);
    const source = await openFile(absolute, path);
    if (identity === undefined) return source;
    const hashed = await identities.inBlocks(absolute);
    const held = hashed?.sha256 === identity.sha256 ? hashed : undefined;
    // Its time may not tell that a file was written: it is hashed anew the next time.
    return heldTo(source, held, identity.bytes, () => identities.forget(absolute));
  }

  async function expand(pattern: string, of?: string): Promise<Result<readonly string[]>> {
    const found = await pathsOf(pattern);
    return found.ok || of === undefined ? found : refused(tellOf(of, found.failure));
  }

  async function pathsOf(pattern: string): Promise<Result<readonly string[]>> {
    const outside = await refusedOutside(folder, root, pattern);
    if (outside !== undefined) return outside;
    if (isPattern(pattern)) return expandPattern(folder, root, pattern);
    const absolute = resolve(folder, pattern);
    const found = await fs.stat(absolute).catch(() => undefined);
    if (found === undefined) return missing(folder, pattern);
    if (found.isDirectory()) return refuse('file.folder', { path: pattern }, at);
    if (!found.isFile()) return refuse('file.special', { path: pattern }, at);
    return success([slashed(pattern)]);
  }

  return {
    expand,
    open,
    identify: (path) => identities.identify(absoluteOf(path)),
    known: (path) => identities.known(absoluteOf(path)),
    ...(read === undefined
      ? {}
      : {
          read: (wanted, watch) =>
            read(
              wanted.map((one) => ({ ...one, absolute: absoluteOf(one.path) })),
              watch,
              identities,
            ),
        }),
  };
}

/** The operand that names files. */
const at = 'files';

/** Why a path may not be read, or undefined. */
async function refusedOutside(
  folder: string,
  root: string,
  path: string,
  realRoot = fs.realpath(root),
): Promise<Refused | undefined> {
  const outside = (how: 'absolute' | 'address' | 'outside'): Refused => refuse('file.outside', { path, how }, at);
  if (isAbsolute(path) || /^[a-zA-Z]:[\\/]/.test(path)) return outside('absolute');
  if (/^[a-z][a-z0-9+.-]+:\/\//i.test(path)) return outside('address');
  const inside = (real: string, realRoot: string): boolean => real === realRoot || real.startsWith(realRoot + sep);
  const fixed = isPattern(path) ? dirname(path.slice(0, path.search(/[*?]/)) + 'x') : path;
  const absolute = resolve(folder, fixed);
  if (!inside(absolute, resolve(root))) return outside('outside');
  const real = await fs.realpath(absolute).catch(() => undefined);
  if (real !== undefined && !inside(real, await realRoot)) return outside('outside');
  return undefined;
}

async function expandPattern(folder: string, root: string, pattern: string): Promise<Result<readonly string[]>> {
  let levels: string[] = [''];
  const parts = slashed(pattern).split('/');
  for (const [index, part] of parts.entries()) {
    const last = index === parts.length - 1;
    const next: string[] = [];
    for (const level of levels) {
      if (!isPattern(part)) {
        next.push(level + part + (last ? '' : '/'));
        continue;
      }
      const entries = await fs.readdir(join(folder, level), { withFileTypes: true }).catch(() => []);
      const expression = levelExpression(part);
      for (const entry of entries) {
        // A hidden file is never meant by a pattern.
        if (entry.name.startsWith('.') || !expression.test(entry.name.normalize())) continue;
        if (last ? !entry.isDirectory() : entry.isDirectory() || entry.isSymbolicLink())
          next.push(level + entry.name + (last ? '' : '/'));
      }
    }
    levels = next;
  }
  const paths: string[] = [];
  const realRoot = fs.realpath(root);
  for (const path of levels) {
    const found = await fs.stat(join(folder, path)).catch(() => undefined);
    if (found?.isFile() !== true) continue;
    const outside = await refusedOutside(folder, root, path, realRoot);
    if (outside !== undefined) return outside;
    paths.push(path);
  }
  // The folder as a reader of the project knows it.
  if (paths.length === 0) return refuse('file.missing', { pattern, folder: slashed(relative(root, folder)) }, at);
  return success(paths.sort(naturalOrder));
}

/** Refuses a file that is not there, with what stands there under nearly the same name. */
async function missing(folder: string, path: string): Promise<Refused> {
  const parent = dirname(resolve(folder, path));
  const name = slashed(path).split('/').pop() ?? path;
  const entries = await fs.readdir(parent).catch(() => undefined);
  const folderPart = slashed(path).slice(0, -name.length);
  if (entries === undefined) return refuse('file.missing', { path, missingFolder: folderPart }, at);
  const near = nearest(name, entries, 1).at(0);
  return refuse('file.missing', near === undefined ? { path } : { path, near: `${folderPart}${near}` }, at);
}
