import { readdir, readFile, rm, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import { putInPlace } from './putInPlace.ts';

const packed = promisify(gzip);
const unpacked = promisify(gunzip);

/** After so many texts the folder is weighed again. */
const weighedEach = 20;

/**
 * Texts by key in a folder of its own, packed, one file each; those that were asked for longest ago go first once all together pass
 * the limit. What cannot be read again is forgotten, and what cannot be written is not kept: nobody depends on it.
 */
export class TextStore {
  readonly #folder: string;
  readonly #limit: number;
  #written = 0;

  /**
   * @param folder absolute path; made when the first text is kept
   * @param limit bytes of all files together
   */
  constructor(folder: string, limit = 50e6) {
    this.#folder = folder;
    this.#limit = limit;
  }

  /** The text that was kept under a key, or undefined. @param key letters, digits, points and hyphens */
  async get(key: string): Promise<string | undefined> {
    const file = this.#file(key);
    const bytes = await readFile(file).catch(() => undefined);
    if (bytes === undefined) return undefined;
    try {
      const text = (await unpacked(bytes)).toString('utf8');
      await utimes(file, new Date(), new Date()).catch(() => undefined);
      return text;
    } catch {
      await this.forget(key);
      return undefined;
    }
  }

  /** Whether any text is kept. */
  async any(): Promise<boolean> {
    return (await readdir(this.#folder).catch(() => [])).length > 0;
  }

  async put(key: string, text: string): Promise<void> {
    try {
      await putInPlace(this.#file(key), await packed(text));
      if (this.#written++ % weighedEach === 0) await this.#shrink();
    } catch {
      // A full disk, say: the text is made again when it is wanted.
    }
  }

  async forget(key: string): Promise<void> {
    await rm(this.#file(key), { force: true }).catch(() => undefined);
  }

  /** Takes the files that were used longest ago away, down to the limit. */
  async #shrink(): Promise<void> {
    const names = await readdir(this.#folder);
    const files = await Promise.all(
      names.map(async (name) => {
        const path = join(this.#folder, name);
        const found = await stat(path).catch(() => undefined);
        return { path, bytes: found?.size ?? 0, at: found?.mtimeMs ?? 0 };
      }),
    );
    let total = files.reduce((sum, { bytes }) => sum + bytes, 0);
    for (const { path, bytes } of files.sort((a, b) => a.at - b.at)) {
      if (total <= this.#limit) return;
      await rm(path, { force: true });
      total -= bytes;
    }
  }

  #file(key: string): string {
    return join(this.#folder, `${key.replace(/[^\w.-]/g, '_')}.gz`);
  }
}
