import type { Pieces } from './pieces.ts';

/** Pieces of UTF-16 as UTF-8. */
export function asUtf8(encoding: 'UTF-16LE' | 'UTF-16BE', wide: Pieces): Pieces {
  const decoder = new TextDecoder('utf-16le');
  const encoder = new TextEncoder();
  let odd: number | undefined;
  /** Whole units, low byte first; a byte that is left over waits for the next piece. */
  const unitsOf = (piece: Uint8Array): Uint8Array => {
    const joined = new Uint8Array(piece.length + (odd === undefined ? 0 : 1));
    if (odd !== undefined) joined[0] = odd;
    joined.set(piece, odd === undefined ? 0 : 1);
    odd = joined.length % 2 === 1 ? joined[joined.length - 1] : undefined;
    const even = joined.subarray(0, joined.length - (joined.length % 2));
    if (encoding === 'UTF-16BE')
      for (let i = 0; i < even.length; i += 2) [even[i], even[i + 1]] = [even[i + 1], even[i]];
    return even;
  };
  return {
    ...wide,
    async next() {
      for (;;) {
        const piece = await wide.next();
        if (!piece) return undefined;
        const bytes = encoder.encode(decoder.decode(unitsOf(piece), { stream: true }));
        if (bytes.length > 0) return bytes;
      }
    },
  };
}
