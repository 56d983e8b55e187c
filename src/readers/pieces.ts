import { limits } from './limits.ts';
import type { ByteSource } from './recording.ts';
import { Refused, figure } from './refusal.ts';

/** Bytes one piece after another, until undefined. A piece may be reused by the next call. */
export interface Pieces {
  next(): Promise<Uint8Array | undefined>;
  /** Bytes of the file that were taken so far, for progress. */
  taken(): number;
  /** Lets go of what the pieces hold. */
  close(): Promise<void>;
}

/** Throws `Refused` where the file ends before its size, as one does that is written anew while it is read. */
export function piecesOf(source: ByteSource): Pieces {
  let position = 0;
  return {
    async next() {
      if (position >= source.size) return undefined;
      const bytes = await source.read(position, Math.min(limits.piece, source.size - position));
      if (bytes.length === 0) {
        throw new Refused(
          'file-changed',
          `${source.path}: the file became shorter while it was read (${position} of ${source.size} bytes): read it again when nothing writes to it any more.`,
        );
      }
      position += bytes.length;
      return bytes;
    },
    taken: () => position,
    close: () => Promise.resolve(),
  };
}

/** The pieces with some bytes put back before them. */
export function rejoined(head: Uint8Array, rest: Pieces): Pieces {
  let first = true;
  return {
    next: () => {
      if (!first) return rest.next();
      first = false;
      return head.length > 0 ? Promise.resolve(head) : rest.next();
    },
    taken: () => rest.taken(),
    close: () => rest.close(),
  };
}

/** At least `length` bytes from the front of the pieces (fewer only where they end), as a copy. */
export async function takeHead(
  pieces: Pieces,
  length: number,
): Promise<{ readonly bytes: Uint8Array; readonly ended: boolean }> {
  const parts: Uint8Array[] = [];
  let total = 0;
  let ended = false;
  while (total < length) {
    const piece = await pieces.next();
    if (!piece) {
      ended = true;
      break;
    }
    parts.push(piece.slice());
    total += piece.length;
  }
  const bytes = new Uint8Array(total);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return { bytes, ended };
}

/** The pieces unpacked from gzip, with the limits on how far they may grow. */
export function unzipped(path: string, packed: Pieces): Pieces {
  const stream = new DecompressionStream('gzip');
  const writer = stream.writable.getWriter();
  const reader = stream.readable.getReader();
  let fault: unknown;
  const feed = async (): Promise<void> => {
    for (let piece = await packed.next(); piece; piece = await packed.next()) await writer.write(piece.slice());
    await writer.close();
  };
  const fed = feed().catch((error: unknown) => {
    fault = error;
  });
  let expanded = 0;
  return {
    async next() {
      try {
        const { done, value } = await reader.read();
        if (done || !value) {
          await fed;
          if (fault) throw fault;
          return undefined;
        }
        expanded += value.length;
        refuseBomb(path, expanded, packed.taken());
        return value;
      } catch (error) {
        if (error instanceof Refused) throw error;
        throw new Refused(
          'damaged-gzip',
          `${path}: the compressed file is damaged or cut short: copy it again from the logger.`,
        );
      }
    },
    taken: () => packed.taken(),
    async close() {
      await reader.cancel().catch(() => undefined);
      await fed;
      await packed.close();
    },
  };
}

function refuseBomb(path: string, expanded: number, packed: number): void {
  const factor = expanded / Math.max(packed, 1);
  if (expanded <= limits.expanded && (expanded <= limits.expandedFree || factor <= limits.expansion)) return;
  throw new Refused(
    'expands-too-far',
    `${path}: the compressed file grows to more than ${figure(expanded / 2 ** 20)} MiB, ${figure(factor)} times its size; the limits are ${limits.expanded / 2 ** 30} GiB and, past ${limits.expandedFree / 2 ** 20} MiB, ${limits.expansion} times: unpack it and load the parts you need.`,
  );
}

/** Pieces of UTF-16 as UTF-8. */
export function asUtf8(encoding: 'utf-16le' | 'utf-16be', wide: Pieces): Pieces {
  const swap = encoding === 'utf-16be';
  const decoder = new TextDecoder('utf-16le');
  const encoder = new TextEncoder();
  let odd: number | undefined;
  const turn = (piece: Uint8Array): Uint8Array => {
    const joined = new Uint8Array(piece.length + (odd === undefined ? 0 : 1));
    if (odd !== undefined) joined[0] = odd;
    joined.set(piece, odd === undefined ? 0 : 1);
    odd = joined.length % 2 === 1 ? joined[joined.length - 1] : undefined;
    const even = joined.subarray(0, joined.length - (joined.length % 2));
    if (swap) for (let i = 0; i < even.length; i += 2) [even[i], even[i + 1]] = [even[i + 1], even[i]];
    return even;
  };
  return {
    async next() {
      for (;;) {
        const piece = await wide.next();
        if (!piece) return undefined;
        const bytes = encoder.encode(decoder.decode(turn(piece), { stream: true }));
        if (bytes.length > 0) return bytes;
      }
    },
    taken: () => wide.taken(),
    close: () => wide.close(),
  };
}
