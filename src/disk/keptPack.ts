import { createHash } from 'node:crypto';

/** Bytes of a SHA-256, and of what the head of a pack says of an entry: its name, its checksum, where it begins and how long it is. */
const sum = 32;
const line = 2 * sum + 8;
/** Bytes of a name that its mark is made of. */
const markBytes = 6;

/** The mark of a name in hex. */
export const markOf = (name: string): number => parseInt(name.slice(0, 2 * markBytes), 16);

/** Where the body of an entry stands in its pack, and what it has to be. */
export interface PackedPlace {
  readonly at: number;
  readonly length: number;
  readonly checksum: Uint8Array;
}

/**
 * Entries in one file: the SHA-256 of its head, how many there are, a line for each in the order of their names, and their
 * bodies.
 * @param entries by their names, each the SHA-256 of a key in hex
 * @param room gives so many bytes to write into, in which anything may stand
 */
export function packOf(entries: ReadonlyMap<string, readonly Uint8Array[]>, room: (bytes: number) => Buffer): Buffer {
  const inOrder = [...entries].sort(([a], [b]) => (a < b ? -1 : 1));
  const heads = PackHead.first + line * inOrder.length;
  const bodies = inOrder.reduce((all, [, bytes]) => bytes.reduce((some, { length }) => some + length, all), 0);
  const pack = room(heads + bodies);
  pack.writeUInt32LE(inOrder.length, sum);
  let at = heads;
  for (const [i, [name, bytes]] of inOrder.entries()) {
    const from = at;
    for (const part of bytes) {
      pack.set(part, at);
      at += part.length;
    }
    const to = PackHead.first + line * i;
    pack.write(name, to, 'hex');
    pack.set(sha256(pack.subarray(from, at)), to + sum);
    pack.writeUInt32LE(from, to + 2 * sum);
    pack.writeUInt32LE(at - from, to + 2 * sum + 4);
  }
  pack.set(sha256(pack.subarray(sum, heads)));
  return pack;
}

/** What a body has to be that stands at a place. */
export const isWhole = (body: Uint8Array, { length, checksum }: PackedPlace): boolean =>
  body.length === length && sha256(body).equals(checksum);

/** The head of a pack: which entries it holds, and where. */
export class PackHead {
  /** Bytes that tell how long a head is. */
  static readonly first = sum + 4;
  readonly #lines: Buffer;
  readonly count: number;

  private constructor(lines: Buffer) {
    this.#lines = lines;
    this.count = lines.length / line;
  }

  /** How many bytes a head has, by its first ones; undefined where these are none. */
  static lengthBy(bytes: Buffer): number | undefined {
    return bytes.length < PackHead.first ? undefined : PackHead.first + line * bytes.readUInt32LE(sum);
  }

  /** The head that a pack begins with; undefined where it is torn or damaged. */
  static from(bytes: Buffer): PackHead | undefined {
    const length = PackHead.lengthBy(bytes);
    if (length === undefined || bytes.length < length) return undefined;
    const head = bytes.subarray(sum, length);
    return sha256(head).equals(bytes.subarray(0, sum)) ? new PackHead(Buffer.from(head.subarray(4))) : undefined;
  }

  /** A short number for each entry, by which it is found in a table; two names hardly ever share one. */
  *marks(): Generator<number> {
    for (let i = 0; i < this.count; i++) yield this.#lines.readUIntBE(line * i, markBytes);
  }

  names(): string[] {
    return Array.from({ length: this.count }, (_, i) => this.#lines.toString('hex', line * i, line * i + sum));
  }

  /** @param name in hex */
  find(name: string): PackedPlace | undefined {
    const wanted = Buffer.from(name, 'hex');
    let [low, high] = [0, this.count];
    while (low < high) {
      const middle = (low + high) >> 1;
      const at = line * middle;
      const order = this.#lines.compare(wanted, 0, sum, at, at + sum);
      if (order === 0) return this.#placeIn(at + sum);
      if (order < 0) low = middle + 1;
      else high = middle;
    }
    return undefined;
  }

  #placeIn(at: number): PackedPlace {
    const checksum = this.#lines.subarray(at, at + sum);
    return { at: this.#lines.readUInt32LE(at + sum), length: this.#lines.readUInt32LE(at + sum + 4), checksum };
  }
}

const sha256 = (bytes: Uint8Array): Buffer => createHash('sha256').update(bytes).digest();
