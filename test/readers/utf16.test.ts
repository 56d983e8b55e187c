import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { asUtf8 } from '../../src/readers/utf16.ts';
import type { Pieces } from '../../src/readers/pieces.ts';

/** Bytes in pieces that end at these places. */
function cut(bytes: Uint8Array, places: readonly number[]): Pieces {
  const ends = [...new Set([...places.map((place) => place % (bytes.length + 1)), bytes.length])].sort((a, b) => a - b);
  let at = 0;
  return {
    next: () => Promise.resolve(ends.length === 0 ? undefined : bytes.slice(at, (at = ends.shift()!))),
    failure: () => undefined,
    progress: () => at,
    close: () => Promise.resolve(),
  };
}

describe('a text of two bytes a character', () => {
  it('is the same text in UTF-8, wherever its pieces are cut, either byte first', async () => {
    const text = fc.string({ unit: fc.constantFrom('a', ';', '\n', '°', '²', '加', '\u{1F6DE}'), minLength: 1 });
    const law = fc.asyncProperty(
      text,
      fc.array(fc.nat(), { maxLength: 6 }),
      fc.constantFrom('UTF-16LE', 'UTF-16BE'),
      async (content, places, encoding) => {
        const bytes = new Uint8Array(Buffer.from(content, 'utf16le'));
        if (encoding === 'UTF-16BE') Buffer.from(bytes.buffer).swap16();
        const pieces = asUtf8(encoding, cut(bytes, places));
        const found: Uint8Array[] = [];
        for (let piece = await pieces.next(); piece; piece = await pieces.next()) {
          assert.ok(piece.length > 0, 'an empty piece');
          found.push(piece);
        }
        assert.equal(Buffer.concat(found).toString('utf8'), content);
        assert.equal(pieces.progress(), bytes.length);
      },
    );
    await fc.assert(law);
  });
});
