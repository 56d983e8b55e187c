/** A source of numbers in [0, 1), the same for the same seed on every machine. */
export type Random = () => number;

/**
 * Seeded generator of 32-bit steps (the mixing of Mulberry32: a Weyl sequence through a multiply-xorshift hash).
 * Meant for run orders, where repeatability counts and long periods do not.
 *
 * @param seed any whole number; taken modulo 2^32
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 15), z | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return ((z ^ (z >>> 14)) >>> 0) / 2 ** 32;
  };
}
