import { ScanVectors } from './text/scanVectors.ts';

export type Encoding = 'UTF-8' | 'UTF-8 with BOM' | 'UTF-16LE' | 'UTF-16BE' | 'Latin-1';

/** How a text's bytes are encoded, from its byte order mark, or from where its zeros and high bytes stand. */
export function sniffEncoding(head: Uint8Array): { readonly encoding: Encoding; readonly mark: number } {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { encoding: 'UTF-8 with BOM', mark: 3 };
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: 'UTF-16LE', mark: 2 };
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: 'UTF-16BE', mark: 2 };
  const wide = wideEncoding(head.subarray(0, 4096));
  if (wide !== undefined) return { encoding: wide, mark: 0 };
  return { encoding: isUtf8(head) ? 'UTF-8' : 'Latin-1', mark: 0 };
}

/** UTF-16 without a mark, where most characters are a letter and a zero. */
function wideEncoding(sample: Uint8Array): Encoding | undefined {
  // Found far sooner than counted, in most texts not at all.
  if (!sample.includes(0)) return undefined;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < sample.length; i++) {
    if (sample[i] !== 0) continue;
    if (i % 2 === 0) even++;
    else odd++;
  }
  const half = sample.length / 2;
  if (half >= 4 && odd > 0.8 * half && even < 0.05 * half) return 'UTF-16LE';
  if (half >= 4 && even > 0.8 * half && odd < 0.05 * half) return 'UTF-16BE';
  return undefined;
}

function isUtf8(bytes: Uint8Array): boolean {
  if (isAscii(bytes)) return true;
  try {
    // The sample may end within a character, which streaming allows.
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}

/** Whether no byte has its highest bit set: looked at by vectors, or four at a time, which takes a fraction of decoding them. */
const isAscii = (bytes: Uint8Array): boolean => ScanVectors.areAscii(bytes) ?? areAscii(bytes);

/** As `ScanVectors.areAscii`, by a plain loop. */
export function areAscii(bytes: Uint8Array): boolean {
  const { buffer, byteOffset, length } = bytes;
  const before = Math.min(length, -byteOffset & 3);
  const words = new Uint32Array(buffer, byteOffset + before, (length - before) >> 2);
  let seen = 0;
  for (let i = 0; i < before; i++) seen |= bytes[i];
  for (let i = before + 4 * words.length; i < length; i++) seen |= bytes[i];
  for (let i = 0; i < words.length; i++) seen |= words[i];
  return (seen & 0x80808080) === 0;
}

/** A decoder for the bytes of the rows, which stand as UTF-8 or Latin-1 whatever the file's own encoding. */
export function decoderFor(encoding: Encoding): TextDecoder {
  return new TextDecoder(encoding === 'Latin-1' ? 'windows-1252' : 'utf-8');
}

/** Whether the head is no text in any of the encodings. */
export function isBinary(head: Uint8Array, encoding: Encoding): boolean {
  if (encoding.startsWith('UTF-16')) return false;
  const sample = head.subarray(0, 8192);
  let control = 0;
  let end = sample.length;
  // A file that was cut off by a power loss may end in zeros.
  while (end > 0 && sample[end - 1] === 0) end--;
  let zeros = 0;
  for (let i = 0; i < end; i++) {
    const c = sample[i];
    if (c === 0) zeros++;
    else if (c < 32 && c !== 9 && c !== 10 && c !== 13 && c !== 12 && c !== 26 && c !== 27) control++;
  }
  // A block of zeros within a text is what a loss of power leaves; a text is more than zeros, though.
  const rest = end - zeros;
  return rest === 0 ? sample.length > 0 : zeros > rest || control > Math.max(2, 0.02 * rest);
}
