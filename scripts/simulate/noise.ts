/** A seeded source of random numbers, the same on every machine. */
export interface Noise {
  /** Evenly spread over 0 <= u < 1. */
  uniform(): number;
  /** Mean 0, standard deviation 1. */
  gaussian(): number;
  /** A whole number from 0 to below `limit`. */
  below(limit: number): number;
}

/**
 * xoshiro128** (Blackman & Vigna 2021), seeded through the mixing of splitmix32: its period of 2^128 - 1 outlasts the
 * hundred million numbers of a full run, where a 32-bit generator would go round.
 */
export function noise(seed: number): Noise {
  const state = new Uint32Array(4);
  for (let k = 0, z = seed >>> 0; k < 4; k++) {
    z = (z + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    state[k] = (mixed ^ (mixed >>> 15)) >>> 0;
  }
  const rotate = (x: number, by: number): number => (x << by) | (x >>> (32 - by));
  const uniform = (): number => {
    const result = Math.imul(rotate(Math.imul(state[1], 5), 7), 9) >>> 0;
    const shifted = state[1] << 9;
    state[2] ^= state[0];
    state[3] ^= state[1];
    state[1] ^= state[2];
    state[0] ^= state[3];
    state[2] ^= shifted;
    state[3] = rotate(state[3], 11);
    return result / 2 ** 32;
  };
  // Box & Muller 1958, both numbers used; 1 - u keeps the logarithm away from 0.
  let spare: number | undefined;
  const gaussian = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { uniform, gaussian, below: (limit) => Math.floor(uniform() * limit) };
}
