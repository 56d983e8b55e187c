/** A seeded source of random numbers: the same seed gives the same recording on every machine. */
export interface Random {
  /** Evenly spread over 0 <= u < 1. */
  uniform(): number;
  /** Mean 0, standard deviation 1. */
  gaussian(): number;
}

/** The 32-bit generator `mulberry32`: ample for made-up recordings, and short enough to read. */
export function random(seed: number): Random {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  // Box and Muller 1958; 1 - u keeps the logarithm away from 0.
  const gaussian = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  for (let k = 0; k < 8; k++) uniform();
  return { uniform, gaussian };
}

/**
 * A smooth random curve of mean 0 and standard deviation about 1, through Gaussian knots `step` apart, from `x` = 0 on.
 * Used for what changes slowly: the roughness along a path, the level within a ride, a pusher's pace.
 */
export function smoothCurve(source: Random, step: number, length: number): (x: number) => number {
  const knots = Array.from({ length: Math.ceil(length / step) + 4 }, () => source.gaussian());
  return (x) => {
    const place = Math.min(Math.max(x / step, 0), knots.length - 2);
    const k = Math.floor(place);
    const blend = 0.5 - 0.5 * Math.cos(Math.PI * (place - k));
    // Between two knots the variance would dip; this keeps it at 1.
    const norm = Math.sqrt((1 - blend) ** 2 + blend ** 2);
    return ((1 - blend) * knots[k] + blend * knots[k + 1]) / norm;
  };
}
