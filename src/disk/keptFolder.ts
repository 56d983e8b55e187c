import { promises as fs } from 'node:fs';
import { basename, join } from 'node:path';
import { isRefusalOf } from '../result/environment.ts';
import { entriesNamed } from './packFolder.ts';

/** A folder's stores are named after the engine that keeps in them; whatever else lies there is not ours. */
const ofEngine = /^[0-9a-f]{24}$/;

/** In ms. */
const day = 86_400_000;

/** A file that holds entries. */
interface Entry {
  readonly path: string;
  readonly entries: number;
  readonly bytes: number;
  /** ms since 1970 when it was last written or, as far as the system notes that, read. */
  readonly used: number;
  readonly engine: string;
}

/** What is kept in a folder, or was removed from it. */
export interface KeptSize {
  readonly entries: number;
  readonly bytes: number;
}

/** What may stay of what is kept. */
export interface KeptLimits {
  readonly bytes?: number | undefined;
  /** Since an entry was used, or one that lies in a file with it. */
  readonly days?: number | undefined;
}

/** How much a folder of stores holds; nothing where there is none. */
export const keptSize = async (folder: string): Promise<KeptSize> => sizeOf(await entriesIn(folder));

/** Removes what is kept in a folder of stores, and nothing else that may lie there. What a run keeps meanwhile may stay. */
export async function clearKept(folder: string): Promise<void> {
  for (const engine of await storesIn(folder))
    await fs.rm(join(folder, engine), { recursive: true, force: true, maxRetries: 5 });
}

/**
 * Removes what was not used for so many days and then, until the rest is no larger than it may be, what other engines than
 * this one kept, and after that what was used longest ago.
 * @param engine whose entries go last; none where nobody knows which is at work
 * @param now ms since 1970
 * @returns what was removed
 */
export async function tidyKept(
  folder: string,
  { bytes = Infinity, days = Infinity }: KeptLimits,
  { engine, now }: { readonly engine: string | undefined; readonly now: number },
): Promise<KeptSize> {
  const entries = (await entriesIn(folder)).map((one) => ({ ...one, used: momentOfUse(one, now) }));
  const isOther = (one: Entry): number => Number(one.engine !== engine);
  const inTurn = entries.toSorted((a, b) => isOther(b) - isOther(a) || a.used - b.used);
  const removed: Entry[] = [];
  let left = sizeOf(entries).bytes;
  const remove = async (one: Entry): Promise<void> => {
    await fs.rm(one.path, { force: true });
    left -= one.bytes;
    removed.push(one);
  };
  const isOld = ({ used }: Entry): boolean => now - used > days * day;
  for (const one of inTurn) if (isOld(one)) await remove(one);
  for (const one of inTurn) {
    if (left <= bytes) break;
    if (!isOld(one)) await remove(one);
  }
  return sizeOf(removed);
}

/** A file that a clock set wrong dated far ahead would never be old: it counts as used before all others. */
const momentOfUse = ({ used }: Entry, now: number): number => (used > now + day ? 0 : used);

const storesIn = async (folder: string): Promise<string[]> =>
  (await namesIn(folder)).filter((name) => ofEngine.test(name));

/** What lies in a folder; nothing where there is none. What can't be listed is no empty folder. */
async function namesIn(folder: string, recursive = false): Promise<string[]> {
  try {
    return await fs.readdir(folder, { recursive });
  } catch (error) {
    if (isRefusalOf(error, 'ENOENT')) return [];
    throw error;
  }
}

const sizeOf = (entries: readonly Entry[]): KeptSize => ({
  entries: entries.reduce((sum, one) => sum + one.entries, 0),
  bytes: entries.reduce((sum, { bytes }) => sum + bytes, 0),
});

async function entriesIn(folder: string): Promise<Entry[]> {
  const entries: Entry[] = [];
  for (const engine of await storesIn(folder))
    for (const name of await namesIn(join(folder, engine), true)) {
      const path = join(folder, engine, name);
      // What another process removed meanwhile is no longer there to be counted.
      const about = await fs.lstat(path).catch(() => undefined);
      if (about?.isFile() === true)
        entries.push({
          path,
          entries: entriesNamed(basename(path)),
          bytes: about.size,
          used: Math.max(about.atimeMs, about.mtimeMs),
          engine,
        });
    }
  return entries;
}
