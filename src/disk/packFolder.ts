import { randomUUID } from 'node:crypto';
import { promises as fs } from 'node:fs';
import { join } from 'node:path';
import { isWhole, markOf, PackHead, packOf, type PackedPlace } from './keptPack.ts';
import { putInPlace } from './putInPlace.ts';

/** The moment that a pack was written (ms since 1970), how many entries it holds, and what makes its name the only one. */
const packName = /^(\d{13,16})-(\d+)-[0-9a-f-]{36}$/;
/** The last moment that a clock can tell. */
const lastMoment = 8.64e15;

/** How many entries the file of a name holds; a file that is no pack counts as one. */
export const entriesNamed = (name: string): number => Number(packName.exec(name)?.[2] ?? 1);

/** The moment in the name of a pack; 0 of what is none. */
const momentNamed = (name: string): number => Math.min(lastMoment, Number(packName.exec(name)?.[1] ?? 0));

/** Packs are looked for anew after so many ms, as another process may have written some. */
const lookedFor = 1000;
/** Bytes that are read at a time: entries are mostly wanted in the order in which they were kept. */
const windowBytes = 1 << 20;
/** Windows that are held. */
const mostWindows = 4;
/** Packs of fewer bytes are written together into one, once there are so many. */
const small = { bytes: 1 << 18, count: 32 };

/** Bytes of a pack that memory is kept for. */
const mostRoom = 2e6;

interface Pack {
  readonly name: string;
  readonly moment: number;
  readonly bytes: number;
  readonly head: PackHead;
}

/** A stretch of a file's bytes. */
interface Window {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly bytes: Promise<Buffer>;
}

/** A folder of packs, of which the newest that holds an entry tells it. What is torn, damaged or gone counts as missing. */
export class PackFolder {
  readonly #folder: string;
  /** By their names. */
  readonly #known = new Map<string, Pack | undefined>();
  /** Those that can be read, the newest first. */
  #packs: Pack[] = [];
  /** By the mark of each entry the newest pack that has one: a large study writes hundreds of packs, and asks for each entry. */
  readonly #newestOf = new Map<number, Pack>();
  #windows: Window[] = [];
  #room = Buffer.alloc(0);
  #listed: { readonly at: number; readonly done: Promise<void> } | undefined;

  constructor(folder: string) {
    this.#folder = folder;
  }

  async get(name: string): Promise<Uint8Array | undefined> {
    await this.#look();
    const pack = this.#packOf(name);
    const place = pack?.head.find(name);
    return pack === undefined || place === undefined ? undefined : this.#body(pack, place);
  }

  /** The newest pack that has an entry. */
  #packOf(name: string): Pack | undefined {
    const pack = this.#newestOf.get(markOf(name));
    if (pack === undefined || pack.head.find(name) !== undefined) return pack;
    // Another entry's mark is the same.
    return this.#packs.find(({ head }) => head.find(name) !== undefined);
  }

  /** Writes entries into a pack, those of many small packs along with them; to be waited for before the next is written. */
  async put(entries: ReadonlyMap<string, readonly Uint8Array[]>): Promise<void> {
    const merged = this.#packs.filter(({ bytes }) => bytes < small.bytes);
    const isMerging = merged.length >= small.count;
    const all = isMerging ? new Map([...(await this.#told(merged)), ...entries]) : entries;
    const bytes = packOf(all, (count) => this.#roomFor(count));
    const moment = Math.min(lastMoment, Math.max(Date.now(), (await this.#newest()) + 1));
    const name = `${moment}-${all.size}-${randomUUID()}`;
    await putInPlace(join(this.#folder, name), bytes);
    this.#take(name, { name, moment, bytes: bytes.length, head: PackHead.from(bytes)! });
    if (isMerging) await this.#remove(merged);
  }

  /** The moment of the newest pack, whoever wrote it: what is written later has to count, within one ms and by a clock that was set back as well. */
  async #newest(): Promise<number> {
    const names = await fs.readdir(this.#folder).catch(() => []);
    return [...names, ...this.#known.keys()].reduce((most, name) => Math.max(most, momentNamed(name)), 0);
  }

  /** Memory for one pack after another, which would otherwise wait to be collected. */
  #roomFor(bytes: number): Buffer {
    if (bytes > mostRoom) return Buffer.allocUnsafe(bytes);
    if (this.#room.length < bytes) this.#room = Buffer.allocUnsafeSlow(bytes);
    return this.#room.subarray(0, bytes);
  }

  /** The entries that some packs tell, and no newer one. */
  async #told(packs: readonly Pack[]): Promise<Map<string, readonly Uint8Array[]>> {
    const found = new Map<string, readonly Uint8Array[]>();
    for (const pack of packs)
      for (const name of pack.head.names()) {
        if (this.#packOf(name) !== pack) continue;
        const body = await this.#body(pack, pack.head.find(name)!);
        if (body !== undefined) found.set(name, [Uint8Array.from(body)]);
      }
    return found;
  }

  async #remove(packs: readonly Pack[]): Promise<void> {
    for (const { name } of packs) await fs.rm(join(this.#folder, name), { force: true }).catch(() => undefined);
    this.#packs = this.#packs.filter((pack) => !packs.includes(pack));
    let isLost = false;
    for (const pack of packs)
      for (const mark of pack.head.marks()) if (this.#newestOf.get(mark) === pack) isLost = this.#newestOf.delete(mark);
    // What was damaged, and so did not come along, may stand in an older pack.
    if (isLost) for (const pack of this.#packs) this.#index(pack);
  }

  async #look(): Promise<void> {
    if (this.#listed === undefined || performance.now() - this.#listed.at > lookedFor)
      this.#listed = { at: performance.now(), done: this.#list() };
    await this.#listed.done;
  }

  async #list(): Promise<void> {
    const names = await fs.readdir(this.#folder).catch(() => []);
    const unknown = names.filter((name) => packName.test(name) && !this.#known.has(name));
    for (const name of unknown) this.#take(name, await this.#opened(name));
  }

  #take(name: string, pack: Pack | undefined): void {
    if (this.#known.has(name)) return;
    this.#known.set(name, pack);
    if (pack === undefined) return;
    this.#packs = [pack, ...this.#packs].sort((a, b) => b.moment - a.moment);
    this.#index(pack);
  }

  #index(pack: Pack): void {
    for (const mark of pack.head.marks()) {
      const before = this.#newestOf.get(mark);
      if (before === undefined || before.moment < pack.moment) this.#newestOf.set(mark, pack);
    }
  }

  async #opened(name: string): Promise<Pack | undefined> {
    const about = await fs.stat(join(this.#folder, name)).catch(() => undefined);
    if (about === undefined) return undefined;
    const first = await this.#read(name, 0, Math.min(windowBytes, about.size));
    const length = PackHead.lengthBy(first) ?? 0;
    const head = PackHead.from(
      length <= first.length || length > about.size ? first : await this.#read(name, 0, length),
    );
    if (head === undefined) return undefined;
    this.#hold({ name, from: 0, to: first.length, bytes: Promise.resolve(first) });
    return { name, moment: momentNamed(name), bytes: about.size, head };
  }

  async #body(pack: Pack, place: PackedPlace): Promise<Uint8Array | undefined> {
    const { at, length } = place;
    let window = this.#windows.find(({ name, from, to }) => name === pack.name && from <= at && at + length <= to);
    if (window === undefined) {
      const to = Math.min(pack.bytes, at + Math.max(length, windowBytes));
      window = { name: pack.name, from: at, to, bytes: this.#read(pack.name, at, to - at) };
      if (length < windowBytes) this.#hold(window);
    }
    const body = (await window.bytes).subarray(at - window.from, at - window.from + length);
    return isWhole(body, place) ? body : undefined;
  }

  #hold(window: Window): void {
    this.#windows = [window, ...this.#windows.slice(0, mostWindows - 1)];
  }

  /** So many bytes of a file, or as many as can be read. */
  async #read(name: string, from: number, length: number): Promise<Buffer> {
    const file = await fs.open(join(this.#folder, name)).catch(() => undefined);
    if (file === undefined) return Buffer.alloc(0);
    try {
      const bytes = Buffer.allocUnsafeSlow(length);
      let read = 0;
      while (read < length) {
        const { bytesRead } = await file.read(bytes, read, length - read, from + read);
        if (bytesRead === 0) break;
        read += bytesRead;
      }
      return bytes.subarray(0, read);
    } catch {
      return Buffer.alloc(0);
    } finally {
      await file.close().catch(() => undefined);
    }
  }
}
