import { createHash } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { isSystemRefusal } from '../result/environment.ts';
import { digest } from './bytes.ts';
import { inTurn } from './inTurn.ts';
import { putInPlace } from './putInPlace.ts';

/** Bytes of the checksum that every entry begins with. */
const checksum = 32;
/** Entries that are written at a time. */
const atOnce = 4;

/** Where a user's programs keep what they can make again. */
export function cacheFolder(): string {
  const { XDG_CACHE_HOME: cache, LOCALAPPDATA: local } = process.env;
  if (cache !== undefined && cache !== '') return join(cache, 'washboard');
  if (process.platform === 'win32') return join(local ?? join(homedir(), 'AppData', 'Local'), 'washboard', 'cache');
  return process.platform === 'darwin'
    ? join(homedir(), 'Library', 'Caches', 'washboard')
    : join(homedir(), '.cache', 'washboard');
}

/**
 * Entries in files of their own, found by their keys. An entry is written beside its place and renamed, and begins with
 * the SHA-256 of the rest: one that is torn or damaged counts as missing. Nothing here fails whoever asks.
 */
export class KeptStore {
  readonly #folder: string;
  readonly #inTurn = inTurn(atOnce);
  readonly #pending = new Set<Promise<void>>();
  /** Why nothing is kept any more, by the system's code, once something could not be. */
  trouble: string | undefined;

  /** @param folder of all stores @param engine what tells one state of the program from another */
  constructor(folder: string, engine: string) {
    this.#folder = join(folder, engine);
  }

  async get(key: string): Promise<Uint8Array | undefined> {
    const found = await fs.readFile(this.#pathOf(key)).catch(() => undefined);
    if (found === undefined || found.length < checksum) return undefined;
    const body = found.subarray(checksum);
    return found.subarray(0, checksum).equals(createHash('sha256').update(body).digest()) ? body : undefined;
  }

  set(key: string, bytes: readonly Uint8Array[]): void {
    if (this.trouble !== undefined) return;
    const written = this.#inTurn(() => this.#write(this.#pathOf(key), bytes));
    this.#pending.add(written);
    void written.finally(() => this.#pending.delete(written));
  }

  /** Waits until all is written that was handed over. */
  async settled(): Promise<void> {
    await Promise.all(this.#pending);
  }

  #pathOf(key: string): string {
    const name = digest(key);
    return join(this.#folder, name.slice(0, 2), name.slice(2));
  }

  async #write(path: string, bytes: readonly Uint8Array[]): Promise<void> {
    if (this.trouble !== undefined) return;
    try {
      const hash = createHash('sha256');
      for (const part of bytes) hash.update(part);
      await putInPlace(path, Buffer.concat([hash.digest(), ...bytes]));
    } catch (error) {
      // The results are as good without; they are only computed again the next time.
      this.trouble ??= isSystemRefusal(error) ? error.code : 'unknown';
    }
  }
}
