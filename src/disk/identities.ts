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
  /** Until when it holds, in ms since 1970, where the file's stamp may miss a change. */
  readonly until?: number | undefined;
}

/** What a stamp is made of. */
export type FileStat = Pick<BigIntStats, 'size' | 'mtimeNs' | 'ctimeNs' | 'ino'>;

/** A file as far as it can be told to be another one without a look at its bytes. */
export const stampOf = ({ size, mtimeNs, ctimeNs, ino }: FileStat): string => `${size} ${mtimeNs} ${ctimeNs} ${ino}`;

/** A file may be written twice within one tick of its time: its stamp tells of every change only once it has rested for so many ms. */
const rested = 2000;

/**
 * In ns. File systems that note no changes (FAT and exFAT, images of disks, most that stand for another machine's) give the time
 * of the samples for it, in steps of this or more, and number their files anew each time they are looked into: another file of the
 * same length under the same name, as two cards of a logger without a clock hold, has the same stamp there.
 */
const blunt = 10_000_000n;

/** Whether a file with this stamp can't be changed or exchanged without another one. */
function tellsChanges(stamp: string): boolean {
  const changed = BigInt(stamp.split(' ')[2]);
  return changed % blunt !== 0n && Date.now() - Number(changed / 1_000_000n) >= rested;
}

/** Until when a stamp is taken for its file: of one that may miss a change only as long as a drag or a few cells take. */
const untilWhen = (stamp: string): number | undefined => (tellsChanges(stamp) ? undefined : Date.now() + rested);

/** Files that are hashed at a time: more would only wait for the disk, each with a buffer of its own. */
const atOnce = 4;

/** Hashes of files by their absolute paths, which hold for as long as the files' sizes and times do and tell of changes. */
export class Identities {
  readonly #known = new Map<string, Known>();
  readonly #kept: KeptStore | undefined;
  readonly #stat: (absolute: string) => Promise<FileStat>;
  readonly #inTurn = inTurn(atOnce);

  /**
   * @param kept where they are kept from one run of the program to the next
   * @param stat what the file system tells of a file
   */
  constructor(kept?: KeptStore, stat = (absolute: string): Promise<FileStat> => fs.stat(absolute, { bigint: true })) {
    this.#kept = kept;
    this.#stat = stat;
  }

  async #stampAt(absolute: string): Promise<string> {
    return stampOf(await this.#stat(absolute));
  }

  /** What is known of a file without reading it. */
  async known(absolute: string): Promise<FileIdentity | undefined> {
    const before = this.#known.get(absolute) ?? (await this.#recalled(absolute));
    if (before === undefined || Date.now() > (before.until ?? Infinity)) return undefined;
    return before.stamp === (await this.#stampAt(absolute)) ? before.identity : undefined;
  }

  async #recalled(absolute: string): Promise<Known | undefined> {
    const bytes = await this.#kept?.get(`file ${absolute}`);
    if (bytes === undefined) return undefined;
    const found = JSON.parse(new TextDecoder().decode(bytes)) as Known;
    if (!tellsChanges(found.stamp)) return undefined;
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
    const until = untilWhen(stamp);
    const isKept = until === undefined;
    this.#known.set(absolute, { stamp, identity, isKept, until });
    // What is known already would only be written again.
    if (!isKept || (before?.isKept === true && before.stamp === stamp)) return;
    this.#kept?.set(`file ${absolute}`, [new TextEncoder().encode(JSON.stringify({ stamp, identity }))]);
  }

  forget(absolute: string): void {
    this.#known.delete(absolute);
  }

  #hash(absolute: string): Promise<Known> {
    return this.#inTurn(async () => {
      const stamp = await this.#stampAt(absolute);
      const hashed = await hashFile(absolute);
      const identity = { bytes: hashed.bytes, sha256: hashed.sha256 };
      const found = { stamp, identity, hashed, until: untilWhen(stamp) };
      this.#known.set(absolute, found);
      return found;
    });
  }
}
