import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  mkdirSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
} from 'node:fs';
import { fchmodSync, fsyncSync, writeFileSync, type Stats } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { success, type Refused, type Result } from '../result/result.ts';
import { reasonOf } from './faults.ts';
import { refuse, type ProtectedAs } from './messages.ts';

/** What a command makes. */
export interface Product {
  readonly path: string;
  readonly content: string | Uint8Array;
  /** In words, as in `report page`. */
  readonly kind: string;
  /** Whether what is found in a file is such a product of an earlier run; none where each may hold somebody's notes. */
  readonly isOurs?: (found: Buffer) => boolean;
}

/** What stands around a product. */
export interface WriteOptions {
  /** Whether a file of another kind or making may be written over. */
  readonly force: boolean;
  /** Files that stay as they are: the notebook and its raw files even where `force` is said. */
  readonly kept: readonly { readonly path: string; readonly as: ProtectedAs }[];
}

/** The one step that may fail for want of space, so that a test can let it. */
export type Put = (handle: number, content: string | Uint8Array) => void;

/**
 * Writes what a command makes: beside its place, then renamed, so that a failure leaves the old file whole. Refuses
 * to write over a file that is kept, or that is not of the product's kind and making; what the disk refuses is told in a
 * sentence.
 */
export function writeProduct(product: Product, { force, kept }: WriteOptions, put: Put = writeFileSync): Result<void> {
  const { path, content } = product;
  try {
    const found = statSync(path, { throwIfNoEntry: false });
    if (found !== undefined) {
      const refusal = refusedTarget(product, found, kept, force);
      if (refusal !== undefined) return refusal;
      // The rename would replace even a file that may not be written.
      accessSync(path, constants.W_OK);
    }
    replace(found === undefined ? path : realpathSync(path), content, found?.mode, put);
    return success(undefined);
  } catch (error) {
    return refuse('write.failed', { path, ...reasonOf(error) });
  }
}

/** Makes a folder, or with those above it; gives the uppermost that was made then. */
export type Make = (path: string, options?: { readonly recursive: true }) => string | undefined;

/** Makes a folder and those above it where they are not there yet; gives the uppermost that was made, if any. */
export function makeFolder(path: string, make: Make = mkdirSync): Result<string | undefined> {
  try {
    return success(make(path, { recursive: true }));
  } catch (error) {
    return refuse('write.failed', { path, ...reasonOf(plainly(path, make) ?? error) });
  }
}

/** What the disk says to the first folder that is missing: making all at once, Node calls any of its reasons a missing folder. */
function plainly(path: string, make: Make): unknown {
  let missing = resolve(path);
  while (!existsSync(dirname(missing))) missing = dirname(missing);
  if (existsSync(missing)) return undefined;
  try {
    make(missing);
    rmdirSync(missing);
    return undefined;
  } catch (error) {
    return error;
  }
}

/** Takes a made folder away again, and those above it up to the uppermost that was made, as far as they are empty. */
export function unmakeFolder(path: string, uppermost: string): void {
  try {
    for (let at = resolve(path); at.startsWith(resolve(uppermost)); at = dirname(at)) rmdirSync(at);
  } catch {
    // What holds something by now stays.
  }
}

function refusedTarget(
  { path, kind, isOurs }: Product,
  found: Stats,
  kept: WriteOptions['kept'],
  force: boolean,
): Refused | undefined {
  if (found.isDirectory()) return refuse('write.failed', { path, reason: 'folder' });
  if (!found.isFile()) return refuse('write.failed', { path, reason: 'device' });
  const same = kept.find((one) => {
    const other = statSync(one.path, { throwIfNoEntry: false });
    return other?.dev === found.dev && other.ino === found.ino;
  });
  if (same !== undefined && !(force && same.as === 'record')) return refuse('write.kept', { path, as: same.as });
  if (force || isOurs?.(readFileSync(path)) === true) return undefined;
  return refuse('write.foreign', { path, kind, isOfNotes: isOurs === undefined });
}

function replace(path: string, content: string | Uint8Array, mode: number | undefined, put: Put): void {
  const beside = join(dirname(path), `.washboard-${randomBytes(6).toString('hex')}.part`);
  const handle = openSync(beside, 'wx');
  try {
    try {
      put(handle, content);
      if (mode !== undefined) fchmodSync(handle, mode & 0o7777);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}
