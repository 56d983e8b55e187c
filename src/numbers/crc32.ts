/** The remainders of all bytes, of the polynomial 0x04c11db7 with its bits the other way round. */
const remainders = Int32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  return crc;
});

/** CRC-32 of bytes, from 0 to 2^32 - 1 (RFC 1952, 8; ISO/IEC 15948, annex D). */
export function crc32(bytes: Uint8Array): number {
  let crc = -1;
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ remainders[(crc ^ bytes[i]) & 255];
  return ~crc >>> 0;
}
