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
import { isNotebookName } from '../result/fileNames.ts';
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
  /** Whether `force` goes over what is found; left out, over anything that is not kept. */
  readonly isForced?: (found: Buffer) => boolean;
  /** Whether it is the file itself with something changed, and no product in its place: so a notebook may be written. */
  readonly isEdit?: boolean;
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

/** A product that lies beside its place, whole. */
export interface Staged {
  /** Puts it into its place. */
  readonly commit: () => Result<void>;
  /** Takes it away again. */
  readonly drop: () => void;
}

/**
 * Writes what a command makes: beside its place, then renamed, so that a failure leaves the old file whole. Refuses
 * to write over a file that is kept, or that is not of the product's kind and making; what the disk refuses is told in a
 * sentence.
 */
export function writeProduct(product: Product, options: WriteOptions, put: Put = writeFileSync): Result<void> {
  const staged = stageProduct(product, options, put);
  return staged.ok ? staged.value.commit() : staged;
}

/** As `writeProduct` but for the renaming, so that of several products all or none come to their places. */
export function stageProduct(product: Product, options: WriteOptions, put: Put = writeFileSync): Result<Staged> {
  const { path, content } = product;
  try {
    const found = statSync(path, { throwIfNoEntry: false });
    if (found !== undefined) {
      const refusal = refusedTarget(product, found, options);
      if (refusal !== undefined) return refusal;
      // The rename would replace even a file that may not be written.
      accessSync(path, constants.W_OK);
    }
    const place = found === undefined ? path : realpathSync(path);
    const beside = putBeside(place, content, found?.mode, put);
    const drop = (): void => rmSync(beside, { force: true });
    return success({ drop, commit: () => renamed(beside, place, path) });
  } catch (error) {
    return refuse('write.failed', { path, ...reasonOf(error) });
  }
}

function renamed(beside: string, place: string, path: string): Result<void> {
  try {
    renameSync(beside, place);
    return success(undefined);
  } catch (error) {
    rmSync(beside, { force: true });
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
  { path, kind, isOurs, isForced, isEdit = false }: Product,
  found: Stats,
  { force, kept }: WriteOptions,
): Refused | undefined {
  if (found.isDirectory()) return refuse('write.failed', { path, reason: 'folder' });
  if (!found.isFile()) return refuse('write.failed', { path, reason: 'device' });
  const same = kept.find((one) => {
    const other = statSync(one.path, { throwIfNoEntry: false });
    return other?.dev === found.dev && other.ino === found.ino;
  });
  if (same !== undefined && !(force && same.as === 'record')) return refuse('write.kept', { path, as: same.as });
  // A link may call a notebook anything.
  if (!isEdit && isNotebookName(realpathSync(path))) return refuse('write.kept', { path, as: 'any notebook' });
  if (force && isForced === undefined) return undefined;
  const content = readFileSync(path);
  if (isOurs?.(content) === true) return undefined;
  if (force) return isForced?.(content) === false ? refuse('write.other', { path, kind }) : undefined;
  return refuse('write.foreign', { path, kind, isOfNotes: isOurs === undefined });
}

/** Writes a file beside a place, and gives its path. */
function putBeside(place: string, content: string | Uint8Array, mode: number | undefined, put: Put): string {
  const beside = join(dirname(place), `.washboard-${randomBytes(6).toString('hex')}.part`);
  const handle = openSync(beside, 'wx');
  try {
    try {
      put(handle, content);
      if (mode !== undefined) fchmodSync(handle, mode & 0o7777);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    return beside;
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}
