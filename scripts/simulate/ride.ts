import type { Noise } from './noise.ts';

/** Samples a second in Hz, and length of a ride in s. */
export const rate = 350;
export const duration = 85;
const samples = rate * duration;

/** A stretch of road: what every ride over it meets alike. */
export interface Road {
  /** Factor on the broadband level, sample by sample. */
  readonly roughness: Float64Array;
  /** Fixed bumps: where in s, and how strong in multiples of the broadband level. */
  readonly bumps: readonly { readonly at: number; readonly strength: number }[];
}

/** Two resonances of the vehicle, on a flat floor: natural frequency in Hz, damping, share of the level. */
const resonances = [
  { frequency: 13, damping: 0.12, share: 1 },
  { frequency: 36, damping: 0.08, share: 0.6 },
] as const;
const floor = 0.15;

/** Scatter of ln level along the road (memory 4 s), and of one ride about it (memory 5 s). */
const roadModulation = { spread: 0.3, memory: 4 } as const;
const ownModulation = { spread: 0.12, memory: 5 } as const;
/** Potholes hit by chance: how many a second, and their median strength. */
const potholes = { perSecond: 0.12, strength: 3 } as const;

/** A road of its own roughness and bumps. */
export function road(random: Noise): Road {
  const roughness = modulation(random, roadModulation.spread, roadModulation.memory);
  const bumps = Array.from({ length: 8 }, (_, k) => ({
    at: 6 + k * 10 + 4 * random.uniform(),
    strength: 4 + 3 * random.uniform(),
  }));
  return { roughness, bumps };
}

/**
 * One ride: Gaussian noise through the resonances, with the road's roughness, the ride's own slow modulation, the
 * road's bumps hit a little differently each time, and potholes met by chance. Acceleration in arbitrary units.
 */
export function ride(over: Road, random: Noise): Float64Array {
  const own = modulation(random, ownModulation.spread, ownModulation.memory);
  const force = new Float64Array(samples);
  for (let n = 0; n < samples; n++) force[n] = random.gaussian() * over.roughness[n] * own[n];
  for (const { at, strength } of over.bumps)
    strike(force, at + 0.1 * random.gaussian(), strength * Math.exp(0.2 * random.gaussian()));
  for (let at = 0; (at += -Math.log(1 - random.uniform()) / potholes.perSecond) < duration;) {
    strike(force, at, potholes.strength * Math.exp(0.4 * random.gaussian()));
  }
  const out = force.map((value) => floor * value);
  for (const { frequency, damping, share } of resonances) resonate(force, frequency, damping, share, out);
  return out;
}

/** A short push of half a sine, 30 ms long. */
function strike(force: Float64Array, at: number, strength: number): void {
  const width = Math.round(0.03 * rate);
  const start = Math.round(at * rate);
  for (let k = 0; k < width; k++) {
    const n = start + k;
    if (n >= 0 && n < force.length) force[n] += strength * Math.sin((Math.PI * (k + 0.5)) / width);
  }
}

/** Adds the response of a two-pole resonator whose output for white noise of variance 1 has the variance share^2. */
function resonate(force: Float64Array, frequency: number, damping: number, share: number, out: Float64Array): void {
  const turn = (2 * Math.PI * frequency) / rate;
  const radius = Math.exp(-damping * turn);
  const [c1, c2] = [2 * radius * Math.cos(turn * Math.sqrt(1 - damping * damping)), -radius * radius];
  const gain = share * Math.sqrt(((1 + c2) * ((1 - c2) ** 2 - c1 * c1)) / (1 - c2));
  let [last, before] = [0, 0];
  for (let n = 0; n < force.length; n++) {
    const now = gain * force[n] + c1 * last + c2 * before;
    out[n] += now;
    before = last;
    last = now;
  }
}

/** exp of a first-order Gauss-Markov process: standard deviation of its logarithm, and memory in s. */
function modulation(random: Noise, spread: number, memory: number): Float64Array {
  const out = new Float64Array(samples);
  // Drawn every 0.1 s and held straight between: far below the memory, and ten times cheaper.
  const every = rate / 10;
  const keep = Math.exp(-0.1 / memory);
  let next = spread * random.gaussian();
  for (let start = 0; start < samples; start += every) {
    const now = next;
    next = keep * now + spread * Math.sqrt(1 - keep * keep) * random.gaussian();
    for (let k = 0; k < every && start + k < samples; k++) out[start + k] = Math.exp(now + ((next - now) * k) / every);
  }
  return out;
}
