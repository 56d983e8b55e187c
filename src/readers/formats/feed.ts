import type { Pieces } from '../pieces.ts';

/** Bytes taken from pieces in whatever lengths are asked for. */
export class Feed {
  private readonly pieces: Pieces;
  private rest = new Uint8Array(0);

  constructor(pieces: Pieces) {
    this.pieces = pieces;
  }

  /** Exactly `length` bytes, as a copy, or fewer where the pieces end. */
  async take(length: number): Promise<Uint8Array> {
    const bytes = new Uint8Array(length);
    let filled = 0;
    while (filled < length) {
      if (this.rest.length === 0) {
        const piece = await this.pieces.next();
        if (!piece) return bytes.subarray(0, filled);
        this.rest = piece.slice();
      }
      const some = this.rest.subarray(0, length - filled);
      bytes.set(some, filled);
      filled += some.length;
      this.rest = this.rest.subarray(some.length);
    }
    return bytes;
  }

  /** Passes over bytes without keeping them. */
  async pass(length: number): Promise<void> {
    for (let left = length; left > 0;) {
      const some = await this.take(Math.min(left, 65_536));
      if (some.length === 0) return;
      left -= some.length;
    }
  }
}

/** Lines of a text that comes in pieces, in an encoding of one byte a character. */
export async function* linesOf(pieces: Pieces, longest: number): AsyncGenerator<string> {
  const decoder = new TextDecoder('windows-1252');
  let rest = '';
  for (let piece = await pieces.next(); piece; piece = await pieces.next()) {
    const parts = (rest + decoder.decode(piece)).split('\n');
    rest = parts.pop() ?? '';
    for (const part of parts) yield part.replace(/\r$/, '');
    if (rest.length > longest) return;
  }
  if (rest !== '') yield rest.replace(/\r$/, '');
}
