import { strict as assert } from 'node:assert';
import { inflateSync } from 'node:zlib';
import { paletteImage } from '../../scripts/media/palette.ts';

/** The chunks of a PNG by their type. */
function chunksOf(png: Uint8Array): ReadonlyMap<string, Buffer> {
  const bytes = Buffer.from(png);
  const chunks = new Map<string, Buffer>();
  for (let at = 8; at < bytes.length; at += bytes.readUInt32BE(at) + 12)
    chunks.set(bytes.toString('latin1', at + 4, at + 8), bytes.subarray(at + 8, at + 8 + bytes.readUInt32BE(at)));
  return chunks;
}

/** Each px as red, green, blue and opacity. */
function pixelsOf(png: Uint8Array, width: number): number[][] {
  const chunks = chunksOf(png);
  const [palette, opacity] = [chunks.get('PLTE')!, chunks.get('tRNS')!];
  const rows = inflateSync(chunks.get('IDAT')!);
  return [...rows].flatMap((index, n) =>
    n % (width + 1) === 0 ? [] : [[...palette.subarray(3 * index, 3 * index + 3), opacity[index]]],
  );
}

describe('a picture of few colours', () => {
  it('keeps each px where it has no more colours than it may', () => {
    const px = [
      [255, 0, 0, 255],
      [0, 128, 0, 255],
      [0, 0, 0, 0],
      [255, 0, 0, 255],
      [9, 9, 9, 40],
      [0, 128, 0, 255],
    ];
    const made = paletteImage({ data: Uint8Array.from(px.flat()), width: 3, height: 2 }, 4);
    assert.deepEqual(pixelsOf(made, 3), px);
  });

  it('has no px far from what it was where it has more', () => {
    const px = Array.from({ length: 256 }, (_, n) => [n, n, n, 255]);
    const made = pixelsOf(paletteImage({ data: Uint8Array.from(px.flat()), width: 16, height: 16 }, 32), 16);
    assert.ok(new Set(made.map(String)).size <= 32);
    made.forEach(([grey], n) => assert.ok(Math.abs(grey - n) <= 8, `${grey} for ${n}`));
  });
});
