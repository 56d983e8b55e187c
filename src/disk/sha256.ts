/** First 32 bits of the fractional parts of the cube roots of the first 64 primes. */
const constants = new Uint32Array(64);
/** The same of the square roots of the first eight. */
const start = new Uint32Array(8);

const fraction = (root: number): number => ((root - Math.floor(root)) * 2 ** 32) >>> 0;
for (let candidate = 2, found = 0; found < 64; candidate++) {
  let isPrime = true;
  for (let divisor = 2; divisor * divisor <= candidate; divisor++) isPrime &&= candidate % divisor !== 0;
  if (!isPrime) continue;
  if (found < 8) start[found] = fraction(Math.sqrt(candidate));
  constants[found++] = fraction(Math.cbrt(candidate));
}

/** SHA-256 of a text or bytes in lower-case hex, at once and without any library of the host. Source: FIPS 180-4, 6.2. */
export function digestAlone(content: string | Uint8Array): string {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const padded = new Uint8Array((((bytes.length + 8) >> 6) + 1) << 6);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padded.length - 4, (bytes.length << 3) >>> 0);
  const state = start.slice();
  for (let at = 0; at < padded.length; at += 64) takeBlock(state, view, at);
  return [...state].map((word) => word.toString(16).padStart(8, '0')).join('');
}

const schedule = new Uint32Array(64);
const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

function takeBlock(state: Uint32Array, view: DataView, at: number): void {
  for (let i = 0; i < 16; i++) schedule[i] = view.getUint32(at + 4 * i);
  for (let i = 16; i < 64; i++) {
    const [early, late] = [schedule[i - 15], schedule[i - 2]];
    const small = turned(early, 7) ^ turned(early, 18) ^ (early >>> 3);
    const large = turned(late, 17) ^ turned(late, 19) ^ (late >>> 10);
    schedule[i] = schedule[i - 16] + small + schedule[i - 7] + large;
  }
  let [a, b, c, d, e, f, g, h] = state;
  for (let i = 0; i < 64; i++) {
    const choice = (e & f) ^ (~e & g);
    const first = (h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + choice + constants[i] + schedule[i]) | 0;
    const majority = (a & b) ^ (a & c) ^ (b & c);
    const second = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + majority) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
  }
  for (const [i, word] of [a, b, c, d, e, f, g, h].entries()) state[i] += word;
}

/** SHA-256 of bytes in lower-case hex, by the host's own where it has one: outside a secure context a browser has none. */
export async function hashOf(bytes: Uint8Array): Promise<string> {
  const { subtle } = globalThis.crypto as { readonly subtle?: typeof globalThis.crypto.subtle };
  if (subtle === undefined) return digestAlone(bytes);
  const hash = new Uint8Array(await subtle.digest('SHA-256', bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
