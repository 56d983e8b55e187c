/**
 * A text that recordings with the very same samples have in common, and no others but by a chance of 2^-64; undefined where
 * nothing tells them from others: no channel moves, or has more than one sample, or a sample is no number.
 */
export function samplesPrint(channels: readonly Float64Array[]): string | undefined {
  const moves = channels.some((samples) => samples.some((value) => value !== samples[0]));
  if (!moves || channels.some(({ length }) => length < 2)) return undefined;
  const prints = channels.map(printOf);
  return prints.includes(undefined) ? undefined : prints.join(' ');
}

const value = new Float64Array(1);
const words = new Uint32Array(value.buffer);

/** Two FNV-1a hashes over the words of all samples, from unlike beginnings and in unlike order, with bits mixed as they go. */
function printOf(samples: Float64Array): string | undefined {
  let [one, two] = [0x811c9dc5, 0x9747b28c];
  for (let i = 0; i < samples.length; i++) {
    // Zero has two signs.
    value[0] = samples[i] + 0;
    if (value[0] !== value[0]) return undefined;
    const [low, high] = [words[0], words[1]];
    one = Math.imul(Math.imul(one ^ low, 0x01000193) ^ high, 0x01000193);
    one ^= one >>> 15;
    two = Math.imul(Math.imul(two ^ high, 0x85ebca6b) ^ low, 0xc2b2ae35);
    two ^= two >>> 13;
  }
  return `${samples.length}:${(one >>> 0).toString(16)}${(two >>> 0).toString(16).padStart(8, '0')}`;
}
