import { fileOf } from '../result/fileNames.ts';
import { refused, success, type Refused, type Result } from '../result/result.ts';
import { nearest } from '../units/nearest.ts';
import type { Disk } from './disk.ts';
import { refuse, tellOf } from './messages.ts';
import { naturalOrder } from './naturalOrder.ts';
import { isPattern, levelExpression } from './pattern.ts';
import { remembered } from './remembered.ts';
import { slashed } from './slashed.ts';

/** Where a project's paths are looked for: they are relative to the notebook's folder, which lies in the project's. */
interface Roots {
  readonly disk: Disk;
  /** Addresses on the disk. */
  readonly folder: string;
  readonly root: string;
}

/** Files that are looked at at a time: of hundreds, one after the other, the most part would be waiting. */
const atOnce = 16;

/** The operand that names files. */
const at = 'files';

/**
 * Paths that a name or a pattern stands for, in natural order. Refused are those that lead out of the project (absolute paths,
 * addresses, `..` beyond the root, links), and what is no file.
 *
 * @param of the line that names it, where that is not the call itself
 */
export async function pathsOf(roots: Roots, pattern: string, of?: string): Promise<Result<readonly string[]>> {
  const found = await namedPaths(roots, pattern);
  return found.ok || of === undefined ? found : refused(tellOf(of, found.failure));
}

async function namedPaths(roots: Roots, pattern: string): Promise<Result<readonly string[]>> {
  const { disk, folder } = roots;
  const outside = await refusedOutside(roots, pattern);
  if (outside !== undefined) return outside;
  if (isPattern(pattern)) return matched(roots, pattern);
  const found = await disk.stat(disk.resolve(folder, pattern));
  if (found === undefined) return missing(roots, pattern);
  if (found.kind === 'folder') return refuse('file.folder', { path: pattern }, at);
  if (found.kind === 'other') return refuse('file.special', { path: pattern }, at);
  return success([slashed(pattern)]);
}

/** Why a path may not be read, or undefined. */
async function refusedOutside(
  { disk, folder, root }: Roots,
  path: string,
  realRoot = disk.real(root),
): Promise<Refused | undefined> {
  const outside = (how: 'absolute' | 'address' | 'outside' | 'link'): Refused =>
    refuse('file.outside', { path, how }, at);
  if (/^[\\/]/.test(path) || /^[a-zA-Z]:[\\/]/.test(path)) return outside('absolute');
  if (/^[a-z][a-z0-9+.-]+:\/\//i.test(path)) return outside('address');
  const fixed = isPattern(path) ? folderOf(path.slice(0, path.search(/[*?]/)) + 'x') : path;
  const address = disk.resolve(folder, fixed);
  if (!disk.within(disk.resolve(root, ''), address)) return outside('outside');
  const real = await disk.real(address);
  if (real === null) return outside('link');
  const whole = await realRoot;
  if (real !== undefined && (typeof whole !== 'string' || !disk.within(whole, real))) return outside('outside');
  return undefined;
}

/** A path that a pattern meets. */
interface Found {
  readonly path: string;
  /** Whether its folder lists it as a file, which is no link. */
  readonly isFile: boolean;
}

async function matched(roots: Roots, pattern: string): Promise<Result<readonly string[]>> {
  const { disk, folder, root } = roots;
  let levels: Found[] = [{ path: '', isFile: false }];
  const parts = slashed(pattern).split('/');
  for (const [index, part] of parts.entries()) {
    const isLast = index === parts.length - 1;
    const below = await Promise.all(levels.map(({ path }) => levelBelow(roots, path, part, isLast)));
    const closed = below.indexOf(undefined);
    if (closed >= 0) return refuse('file.unlisted', { pattern, path: levels[closed].path.slice(0, -1) || '.' }, at);
    levels = below.flatMap((names) => names ?? []);
  }
  const paths: string[] = [];
  const realRoot = disk.real(root);
  const isWithin = remembered(async (of: string) => (await refusedOutside(roots, of, realRoot)) === undefined);
  const fileAt = async ({ path, isFile }: Found): Promise<string | undefined | Refused> => {
    // What its folder lists as a file is one, and lies where the folder does: of 10,000 of them none is asked for.
    if (isFile && (await isWithin(folderOf(path)))) return path;
    const found = await disk.stat(disk.resolve(folder, path));
    // Listed a moment ago and gone, or a link that leads nowhere: the set would lack it without a word.
    if (found === undefined && isPattern(parts[parts.length - 1])) return refuse('file.missing', { path }, at);
    return found?.kind === 'file' ? ((await refusedOutside(roots, path, realRoot)) ?? path) : undefined;
  };
  for (let from = 0; from < levels.length; from += atOnce)
    for (const found of await Promise.all(levels.slice(from, from + atOnce).map(fileAt))) {
      if (typeof found === 'object') return found;
      if (found !== undefined) paths.push(found);
    }
  // The folder as a reader of the project knows it.
  if (paths.length === 0) return refuse('file.missing', { pattern, folder: disk.relative(root, folder) }, at);
  return success(paths.sort(naturalOrder));
}

/** What a level of a pattern finds in a folder; undefined where that is a folder and does not tell. */
async function levelBelow(
  { disk, folder }: Roots,
  level: string,
  part: string,
  isLast: boolean,
): Promise<Found[] | undefined> {
  if (!isPattern(part)) return [{ path: level + part + (isLast ? '' : '/'), isFile: false }];
  const address = disk.resolve(folder, level);
  const entries = await disk.list(address);
  // A link may lead to a file, and nothing needs to be there.
  if (entries === undefined) return (await disk.stat(address))?.kind === 'folder' ? undefined : [];
  const expression = levelExpression(part);
  return entries
    .filter(
      ({ name, kind }) =>
        // A hidden file is never meant by a pattern.
        !name.startsWith('.') &&
        expression.test(name.normalize()) &&
        (isLast ? kind !== 'folder' : kind === 'folder' || kind === 'link'),
    )
    .map(({ name, kind }) => ({ path: level + name + (isLast ? '' : '/'), isFile: kind === 'file' }));
}

/** Refuses a file that is not there, with what stands there under nearly the same name. */
async function missing({ disk, folder }: Roots, path: string): Promise<Refused> {
  const name = fileOf(slashed(path));
  const folderPart = slashed(path).slice(0, -name.length);
  const entries = await disk.list(disk.resolve(folder, folderOf(path)));
  if (entries === undefined) return refuse('file.missing', { path, missingFolder: folderPart }, at);
  const near = nearest(
    name,
    entries.map((entry) => entry.name),
    1,
  ).at(0);
  return refuse('file.missing', near === undefined ? { path } : { path, near: `${folderPart}${near}` }, at);
}

/** The folder of a path as it is written; the notebook's own for a bare name. */
function folderOf(path: string): string {
  const end = slashed(path).lastIndexOf('/');
  return end < 0 ? '.' : path.slice(0, end);
}
