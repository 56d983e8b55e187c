import { success, type Refused, type Result } from '../result/result.ts';
import { limits } from './limits.ts';
import { refuse } from './messages.ts';
import { copyInMemory } from './reusedMemory.ts';
import type { ByteSource } from './recording.ts';

/** Bytes one piece after another, until undefined. A piece may be reused by the next call. */
export interface Pieces {
  /** @param into where the bytes may be put, if that is as easy */
  next(into?: Uint8Array): Promise<Uint8Array | undefined>;
  /** Why the pieces ended before the file did, once they have. */
  failure(): Refused | undefined;
  /** Share of the file's bytes on the disk that were taken so far. */
  progress(): number;
  /** Lets go of what the pieces hold. */
  close(): Promise<void>;
}

/** A file, or what is packed or encoded in it, with its head at hand: taken once, for all who look at it. */
export interface OpenFile {
  readonly path: string;
  /** About how many bytes there are to read. */
  readonly size: number;
  /** The first `limits.head` bytes at least, or all where there are fewer. */
  readonly head: Uint8Array;
  /** Whether the head is all there is. */
  readonly isWhole: boolean;
  /** The pieces from a byte of the head on; to be asked for once, as they are read once. */
  from(position: number): Pieces;
  /** Why its bytes ended before the file did, once they have. */
  failure(): Refused | undefined;
}

/** Why a source gives no bytes, in a sentence. */
export function refusedBy(source: ByteSource): Refused | undefined {
  const { path } = source;
  const fault = source.fault?.();
  if (fault === undefined) return undefined;
  return fault.kind === 'changed'
    ? refuse('file-changed', { path })
    : refuse('file-unreadable', { path, system: fault.system });
}

/** Of the bytes `from` up to but without `to`. Fails with `file-changed` where the file ends before its size, as one does that is written anew while it is read. */
export function piecesOf(source: ByteSource, from = 0, to = source.size): Pieces {
  let position = from;
  let failure = refusedBy(source);
  return {
    async next(into) {
      if (position >= to || failure) return undefined;
      // Pieces end where blocks that are held to their hash do: one across a cut would be read and hashed twice.
      const length = limits.piece - (position % limits.piece);
      const bytes = await source.read(position, Math.min(length, to - position), into);
      if (bytes.length === 0) {
        failure =
          refusedBy(source) ??
          refuse('file-changed', { path: source.path, short: { read: position, size: source.size } });
        return undefined;
      }
      position += bytes.length;
      return bytes;
    },
    failure: () => failure,
    progress: () => Math.min(1, (position - from) / Math.max(to - from, 1)),
    close: () => Promise.resolve(),
  };
}

/** Takes the head from the front of the pieces; refuses what they fail with on the way. */
export async function openFile(path: string, size: number, pieces: Pieces): Promise<Result<OpenFile>> {
  const parts: Uint8Array[] = [];
  let total = 0;
  let piece: Uint8Array | undefined;
  while (total <= limits.head && (piece = await pieces.next())) {
    parts.push(copyInMemory(piece));
    total += piece.length;
  }
  const failure = pieces.failure();
  if (failure) return failure;
  const head = joined(parts, total);
  const from = (position: number): Pieces => before(head.subarray(position), pieces);
  return success({ path, size, head, isWhole: piece === undefined, from, failure: () => pieces.failure() });
}

function joined(parts: readonly Uint8Array[], total: number): Uint8Array {
  if (parts.length === 1) return parts[0];
  const bytes = new Uint8Array(total);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** The pieces with some bytes put back before them. */
function before(head: Uint8Array, rest: Pieces): Pieces {
  let first = head.length > 0;
  return {
    ...rest,
    next: (into) => {
      if (!first) return rest.next(into);
      first = false;
      return Promise.resolve(head);
    },
  };
}
