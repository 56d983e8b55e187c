import { createHash } from 'node:crypto';
import { createReadStream, promises as fs } from 'node:fs';
import type { ByteSource, SourceFault } from '../readers/recording.ts';
import { isSystemRefusal } from '../result/environment.ts';

/** Bytes of a block: each is hashed for itself, so that any part of a file can be held to what was hashed. */
const block = 1 << 20;

/** A file's bytes, known by their hash. */
export interface Hashed {
  readonly bytes: number;
  readonly sha256: string;
  /** SHA-256 of each block, in order. */
  readonly blocks: readonly string[];
}

/** SHA-256 in lower-case hex. */
export const digest = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex');

/** Hashes a file as a whole and in blocks. */
export async function hashFile(absolute: string): Promise<Hashed> {
  const hash = createHash('sha256');
  const blocks: string[] = [];
  let bytes = 0;
  let rest: Buffer = Buffer.alloc(0);
  for await (const piece of createReadStream(absolute, { highWaterMark: block }) as AsyncIterable<Buffer>) {
    hash.update(piece);
    bytes += piece.length;
    rest = rest.length === 0 ? piece : Buffer.concat([rest, piece]);
    for (; rest.length >= block; rest = rest.subarray(block)) blocks.push(digest(rest.subarray(0, block)));
  }
  if (rest.length > 0) blocks.push(digest(rest));
  return { bytes, sha256: hash.digest('hex'), blocks };
}

/** A file's bytes, read in pieces; what the system refuses is the source's fault. */
export async function openFile(absolute: string, path: string): Promise<ByteSource> {
  let fault: SourceFault | undefined;
  const refused = (error: unknown): void => {
    if (!isSystemRefusal(error)) throw error;
    fault = { kind: 'refused', system: error.code };
  };
  const found = await fs.stat(absolute).catch(refused);
  let buffer = new Uint8Array(0);
  return {
    path,
    size: found?.size ?? 0,
    fault: () => fault,
    async read(position, length) {
      if (buffer.length < length) buffer = new Uint8Array(length);
      const handle = await fs.open(absolute, 'r').catch(refused);
      const read = await handle?.read(buffer, 0, length, position).catch(refused);
      await handle?.close();
      return buffer.subarray(0, read?.bytesRead ?? 0);
    },
  };
}

/**
 * A source that gives the bytes that were hashed, and none once it meets another: it reads whole blocks and holds each to
 * its hash.
 * @param hashed what is known of the bytes; undefined where they were hashed anew since
 * @param size of the file when it was hashed
 */
export function heldTo(source: ByteSource, hashed: Hashed | undefined, size: number, changed: () => void): ByteSource {
  let isChanged = hashed === undefined || source.size !== size;
  return {
    path: source.path,
    size,
    fault: () => source.fault?.() ?? (isChanged ? { kind: 'changed' } : undefined),
    async read(position, length) {
      const end = Math.min(position + length, size);
      if (isChanged || hashed === undefined || end <= position) return new Uint8Array(0);
      const first = Math.floor(position / block);
      const from = first * block;
      const bytes = await whole(source, from, Math.min(Math.ceil(end / block) * block, size) - from);
      for (let at = 0; at < bytes.length && !isChanged; at += block)
        isChanged = digest(bytes.subarray(at, at + block)) !== hashed.blocks[first + at / block];
      isChanged ||= bytes.length < end - from;
      if (!isChanged) return bytes.subarray(position - from, end - from);
      changed();
      return new Uint8Array(0);
    },
  };
}

/** `length` bytes from a source, fewer only where it ends. */
async function whole(source: ByteSource, from: number, length: number): Promise<Uint8Array> {
  const first = await source.read(from, length);
  if (first.length === length || first.length === 0) return first;
  const bytes = new Uint8Array(length);
  let filled = 0;
  for (let some = first; some.length > 0; some = await source.read(from + filled, length - filled)) {
    bytes.set(some, filled);
    filled += some.length;
    if (filled === length) break;
  }
  return bytes.subarray(0, filled);
}
