import { crc32 } from '../numbers/crc32.ts';

/** Signature and header chunk of a PNG, after which others may follow (ISO/IEC 15948, 5.6). */
const afterHeader = 33;

/** With a `pHYs` chunk (ISO/IEC 15948, 11.3.5.3): pixels per metre, both ways. */
export function withResolution(png: Uint8Array, dpi: number): Uint8Array {
  const body = Buffer.alloc(13);
  body.write('pHYs', 0, 'latin1');
  const perMetre = Math.round(dpi / 0.0254);
  body.writeUInt32BE(perMetre, 4);
  body.writeUInt32BE(perMetre, 8);
  body[12] = 1;
  const chunk = Buffer.alloc(21);
  chunk.writeUInt32BE(9, 0);
  body.copy(chunk, 4);
  chunk.writeUInt32BE(crc32(body), 17);
  return new Uint8Array(Buffer.concat([png.subarray(0, afterHeader), chunk, png.subarray(afterHeader)]));
}
