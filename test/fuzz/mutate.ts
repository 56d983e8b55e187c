/** Numbers from 0 to 1 by a seed: the same on every machine (mulberry32, T. Ettinger 2017). */
export function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** What breaks readers: signs that mean something to one of them, numbers at an edge, what a terminal obeys. */
const pieces = [
  ...['"', ',', ';', '\t', '\n', '\r', '\r\n', '\0', ' ', '|', '(', ')', '[', ']', '..', '=', '#', '%', '>', '- ', '`'],
  ...['```', '~~~', '```washboard\n', '<!--', '-->', '<pre>', '\ufeff', '\u202e', '\u001b[31m', 'µ', '1,5', '-', 'e'],
  ...['1e999', '-1e-999', 'NaN', 'inf', '0', '99999999999999999999', '1e308', '12:00:00', '2024-02-30', '(g)', ' in m'],
  ...['spectrum ', 'using ', '0 Hz', '1e300 s', '__proto__', 'constructor', '\ud83d\ude00', 'x = x', 'm^99999', '/0'],
].map((text) => new TextEncoder().encode(text));

const pick = <T>(list: readonly T[], random: () => number): T => list[Math.floor(random() * list.length)];

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** One change of some bytes: as a bad card, a bad line or a careless hand makes it. */
function changed(bytes: Uint8Array, other: Uint8Array, random: () => number): Uint8Array {
  const from = Math.floor(random() * (bytes.length + 1));
  const to = Math.min(bytes.length, from + Math.floor(random() ** 3 * 200));
  const [head, middle, tail] = [bytes.subarray(0, from), bytes.subarray(from, to), bytes.subarray(to)];
  const kinds: (() => readonly Uint8Array[])[] = [
    () => [head, Uint8Array.of(Math.floor(random() * 256)), bytes.subarray(from + 1)],
    () => [head, tail],
    () => [head, middle, middle, tail],
    () => [head, pick(pieces, random), bytes.subarray(from)],
    () => [head, pick(pieces, random), pick(pieces, random), tail],
    () => [head],
    () => [head, middle.map((byte) => byte ^ (1 << Math.floor(random() * 8))), tail],
    () => [head, other.subarray(0, Math.floor(random() * other.length)), tail],
    () => [bytes.subarray(from), head],
    // Four bytes as a length, a count or an offset at an edge.
    () => [
      head,
      pick([Uint8Array.of(255, 255, 255, 255), Uint8Array.of(0, 0, 0, 128), new Uint8Array(4)], random),
      tail,
    ],
  ];
  return joined(pick(kinds, random)());
}

/** Some changes, of which most inputs get few: an input that nothing is left of tries nothing. */
export function mutated(bytes: Uint8Array, other: Uint8Array, random: () => number): Uint8Array {
  let result = bytes;
  for (let left = 1 + Math.floor(random() ** 2 * 5); left > 0; left--) result = changed(result, other, random);
  return result;
}
