import { promises as fs, type BigIntStats } from 'node:fs';
import type { FileIdentity } from '../values/ports.ts';
import { hashFile, type Hashed } from './bytes.ts';
import { inTurn } from './inTurn.ts';
import type { KeptStore } from './keptStore.ts';

interface Known {
  /** Size and time of the file when its bytes were read. */
  readonly stamp: string;
  readonly identity: FileIdentity;
  /** Of its blocks, where those were hashed too. */
  readonly hashed?: Hashed | undefined;
  /** Whether it lies in what is kept, too. */
  readonly isKept?: boolean;
}

/** A file as far as it can be told to be another one without a look at its bytes. */
export const stampOf = ({ size, mtimeNs, ctimeNs, ino }: BigIntStats): string => `${size} ${mtimeNs} ${ctimeNs} ${ino}`;

/** The stamp of the file at a path. */
const stampAt = async (absolute: string): Promise<string> => stampOf(await fs.stat(absolute, { bigint: true }));

/** A file may be written twice within one tick of its time: its stamp is kept only once it has rested for so many ms. */
const rested = 2000;

/** Files that are hashed at a time: more would only wait for the disk, each with a buffer of its own. */
const atOnce = 4;

/** Hashes of files by their absolute paths, which hold for as long as the files' sizes and times do. */
export class Identities {
  readonly #known = new Map<string, Known>();
  readonly #kept: KeptStore | undefined;
  readonly #inTurn = inTurn(atOnce);

  /** @param kept where they are kept from one run of the program to the next */
  constructor(kept?: KeptStore) {
    this.#kept = kept;
  }

  /** What is known of a file without reading it. */
  async known(absolute: string): Promise<FileIdentity | undefined> {
    const before = this.#known.get(absolute) ?? (await this.#recalled(absolute));
    if (before === undefined) return undefined;
    return before.stamp === (await stampAt(absolute)) ? before.identity : undefined;
  }

  async #recalled(absolute: string): Promise<Known | undefined> {
    const bytes = await this.#kept?.get(`file ${absolute}`);
    if (bytes === undefined) return undefined;
    const found = JSON.parse(new TextDecoder().decode(bytes)) as Known;
    const known = { ...found, isKept: true };
    this.#known.set(absolute, known);
    return known;
  }

  async identify(absolute: string): Promise<FileIdentity> {
    return (await this.known(absolute)) ?? (await this.#hash(absolute)).identity;
  }

  /** The file's hash in blocks, by which parts of it can be held to what was hashed. */
  async inBlocks(absolute: string): Promise<Hashed | undefined> {
    const known = this.#known.get(absolute);
    return known?.hashed ?? (await this.#hash(absolute).catch(() => undefined))?.hashed;
  }

  learn(absolute: string, stamp: string, identity: FileIdentity): void {
    const before = this.#known.get(absolute);
    const changed = Number(stamp.split(' ')[2]) / 1e6;
    const isKept = Date.now() - changed >= rested;
    this.#known.set(absolute, { stamp, identity, isKept });
    // What is known already would only be written again.
    if (!isKept || (before?.isKept === true && before.stamp === stamp)) return;
    this.#kept?.set(`file ${absolute}`, [new TextEncoder().encode(JSON.stringify({ stamp, identity }))]);
  }

  forget(absolute: string): void {
    this.#known.delete(absolute);
  }

  #hash(absolute: string): Promise<Known> {
    return this.#inTurn(async () => {
      const stamp = await stampAt(absolute);
      const hashed = await hashFile(absolute);
      const found = { stamp, identity: { bytes: hashed.bytes, sha256: hashed.sha256 }, hashed };
      this.#known.set(absolute, found);
      return found;
    });
  }
}
