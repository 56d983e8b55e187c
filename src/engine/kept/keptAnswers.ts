import { flattened, unflattened } from './graph.ts';

/** Where bytes are kept by a key from one run to the next, by whoever runs the engine. */
export interface Kept {
  /** What was kept, whole and as it was; undefined where it is not there, or damaged. */
  get(key: string): Promise<Uint8Array | undefined>;
  /** Keeps bytes, if that can be; nobody waits for it. */
  set(key: string, bytes: readonly Uint8Array[]): void;
}

/** Buffers from so many bytes on are kept by themselves, as several answers share them. */
const large = 1 << 16;
/** Bytes of one answer beyond which it is sooner computed than read. */
const most = 512e6;

/** Of each buffer of an entry its bytes, and the key that it is kept by where it is kept by itself. */
type Buffers = readonly (readonly [bytes: number, key?: string])[];

/** An entry begins with how long that is, and its text; then come these two, and the buffers that have no key. */
const lengths = 8;
const encoder = new TextEncoder();
const decoder = new TextDecoder();
const textIn = (bytes: Uint8Array): string => decoder.decode(bytes);

/** Answers that are kept from one run of a program to the next, by their content keys. */
export class KeptAnswers {
  readonly #kept: Kept;
  readonly #keys = new WeakMap<ArrayBufferLike, string>();
  readonly #buffers = new Map<string, WeakRef<ArrayBufferLike>>();

  constructor(kept: Kept) {
    this.#kept = kept;
  }

  /** What was kept by a key, as whoever keeps by such keys knows it. */
  async get<T extends object>(key: string): Promise<T | undefined> {
    const bytes = await this.#kept.get(key);
    if (bytes === undefined) return undefined;
    try {
      return (await this.#read(bytes)) as T | undefined;
    } catch {
      // Whole by its checksum, and yet in no form that can be read: it counts as damaged, and the answer is made anew.
      return undefined;
    }
  }

  async #read(bytes: Uint8Array): Promise<object | undefined> {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const heads = lengths + view.getUint32(0, true);
    const buffers = JSON.parse(textIn(bytes.subarray(lengths, heads))) as Buffers;
    let at = heads + view.getUint32(4, true);
    const text = textIn(bytes.subarray(heads, at));
    const found: ArrayBufferLike[] = [];
    for (const [size, own] of buffers) {
      const buffer = own === undefined ? copied(bytes.subarray(at, (at += size))) : await this.#buffer(own, size);
      if (buffer === undefined) return undefined;
      found.push(buffer);
    }
    const answer = unflattened(text, (index) => found[index]);
    return typeof answer === 'object' && answer !== null ? answer : undefined;
  }

  set(key: string, answer: object): void {
    const flat = flattened(answer);
    if (flat === undefined) return;
    const textLength = bytesOf(flat.text);
    if (textLength + bytesOf(flat.buffers) > most) return;
    const own: Uint8Array[] = [];
    const buffers = flat.buffers.map((buffer, index): Buffers[number] => {
      if (buffer.byteLength >= large) return [buffer.byteLength, this.#keep(buffer, `${key} ${index}`)];
      own.push(new Uint8Array(buffer));
      return [buffer.byteLength];
    });
    const heads = encoder.encode(JSON.stringify(buffers));
    const first = new Uint8Array(lengths);
    new DataView(first.buffer).setUint32(0, heads.length, true);
    new DataView(first.buffer).setUint32(4, textLength, true);
    this.#kept.set(key, [first, heads, ...flat.text, ...own]);
  }

  #keep(buffer: ArrayBufferLike, key: string): string {
    const before = this.#keys.get(buffer);
    if (before !== undefined) return before;
    this.#kept.set(key, [new Uint8Array(buffer)]);
    this.#know(buffer, key);
    return key;
  }

  async #buffer(key: string, size: number): Promise<ArrayBufferLike | undefined> {
    const before = this.#buffers.get(key)?.deref();
    if (before !== undefined) return before;
    const bytes = await this.#kept.get(key);
    if (bytes?.length !== size) return undefined;
    const buffer = copied(bytes);
    this.#know(buffer, key);
    return buffer;
  }

  #know(buffer: ArrayBufferLike, key: string): void {
    this.#keys.set(buffer, key);
    this.#buffers.set(key, new WeakRef(buffer));
  }
}

const bytesOf = (parts: readonly { readonly byteLength: number }[]): number =>
  parts.reduce((sum, { byteLength }) => sum + byteLength, 0);

/** Bytes in a buffer of their own. A host's own kind of array may take `slice` for a view. */
const copied = (bytes: Uint8Array): ArrayBufferLike => new Uint8Array(bytes).buffer;
