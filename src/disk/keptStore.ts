import { isSystemRefusal } from '../result/environment.ts';
import { digest } from './bytes.ts';
import { packsIn } from './cacheFolder.ts';
import { PackFolder } from './packFolder.ts';

/** Entries are written together once they come to so many bytes, or the first of them has waited for so many ms. */
const together = { bytes: 1e6, ms: 1000 };

type Entries = Map<string, readonly Uint8Array[]>;

/**
 * Entries found by their keys, many together in a file: a study has thousands of small ones, and a file for each takes longer
 * than to make it. A file is written beside its place and renamed, and nobody waits for it; what is torn or damaged
 * counts as missing. Nothing here fails whoever asks.
 */
export class KeptStore {
  readonly #packs: PackFolder;
  readonly #engine: string;
  /** What waits to be written, and what is being written. */
  #waiting: Entries = new Map();
  #bytes = 0;
  readonly #written = new Set<Entries>();
  #clock: NodeJS.Timeout | undefined;
  #writing: Promise<void> = Promise.resolve();
  /** Why nothing is kept any more, by the system's code, once something could not be. */
  trouble: string | undefined;

  /** @param folder of all stores @param engine what tells one state of the program from another */
  constructor(folder: string, engine: string) {
    this.#packs = new PackFolder(packsIn(folder, engine));
    this.#engine = engine;
  }

  async get(key: string): Promise<Uint8Array | undefined> {
    const name = this.#nameOf(key);
    for (const entries of [this.#waiting, ...[...this.#written].reverse()]) {
      const bytes = entries.get(name);
      if (bytes !== undefined) return Buffer.concat(bytes);
    }
    return this.#packs.get(name);
  }

  /** Keeps bytes, which are not to change any more. */
  set(key: string, bytes: readonly Uint8Array[]): void {
    if (this.trouble !== undefined) return;
    this.#waiting.set(this.#nameOf(key), bytes);
    this.#bytes += bytes.reduce((sum, part) => sum + part.length, 0);
    if (this.#bytes >= together.bytes) this.#write();
    // No reason for a process to go on: whoever ends waits until all is written.
    else this.#clock ??= setTimeout(() => this.#write(), together.ms).unref();
  }

  /** By the engine, too: what another one kept is not ours, in whichever folder it lies by now. */
  #nameOf(key: string): string {
    return digest(`${this.#engine} ${key}`);
  }

  /** Writes all that was handed over, and waits until that is done. */
  async settled(): Promise<void> {
    this.#write();
    await this.#writing;
  }

  #write(): void {
    clearTimeout(this.#clock);
    this.#clock = undefined;
    if (this.#waiting.size === 0) return;
    const entries = this.#waiting;
    this.#waiting = new Map();
    this.#bytes = 0;
    this.#written.add(entries);
    this.#writing = this.#writing.then(() => this.#put(entries)).finally(() => this.#written.delete(entries));
  }

  async #put(entries: Entries): Promise<void> {
    if (this.trouble !== undefined) return;
    try {
      await this.#packs.put(entries);
    } catch (error) {
      // The results are as good without; they are only computed again the next time.
      this.trouble ??= isSystemRefusal(error) ? error.code : 'unknown';
    }
  }
}
