import { gzipSync } from 'node:zlib';
import type { Motion } from './ride.ts';

/** The logger's file: stamps in s rounded to the ms, three axes in g to its step of 0.2 mg. */
export function recordingText({ x, y, z }: Motion, rate: number): string {
  const lines = ['t (s),x (g),y (g),z (g)'];
  for (let n = 0; n < x.length; n++) {
    lines.push(`${(n / rate).toFixed(3)},${number(x[n])},${number(y[n])},${number(z[n])}`);
  }
  return lines.join('\n') + '\n';
}

/** Four decimals, and never a negative zero. */
const number = (value: number): string => (Math.abs(value) < 0.00005 ? '0.0000' : value.toFixed(4));

/** Gzip with no time and no system in its head (RFC 1952), so that the same text gives the same bytes. */
export function packed(text: string): Uint8Array {
  const bytes = gzipSync(text, { level: 9 });
  bytes.fill(0, 4, 8);
  bytes[9] = 255;
  return bytes;
}
