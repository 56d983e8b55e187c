import { energy, meanFree } from './delay.ts';
import { realFft } from './fft.ts';
import { placesWithin, valuesBetween } from './interpolate.ts';
import type { ClockedSignal, ClockLine, TwoClocks } from './clocks.ts';
import { fineLine } from './clockLine.ts';

/** Clocks that differ by more than this are faulty (engineering choice). */
const mostFast = 0.02;
/** Lengths of stretches by which both are found in each other, in s: longer ones smear where the clocks run apart. */
const lengths = [10, 40, 2.5];
const stretchesLookedFor = 9;
/** As of one delay: see `delayBetween`. */
const leastCorrelation = 0.1;
const leastProminence = 6;
/** Stretches on one line lie within this of it, in s, before it is refined. */
const nearLine = 0.03;

/**
 * How late and how fast the clock of B is against that of A. Stretches of A are looked for in all of B by the largest
 * coefficient of their cross-correlation (Bendat and Piersol, Random Data, 5.1); the straight line through most of them is
 * then refined over short stretches, B being read along the line each time, until what is left is a small part of a step.
 *
 * @param a of the rate on whose steps both are compared; `b` has no content above half of it
 * @returns undefined where nothing stands out that both recorded: of unrelated signals, of pure tones, of less than some
 * seconds that both hold
 */
export function twoClocks(a: ClockedSignal, b: ClockedSignal): TwoClocks | undefined {
  const uniformA = uniformSignal(a, a.rate);
  const uniformB = uniformSignal(b, a.rate);
  for (const seconds of lengths) {
    const found = coarseLine(uniformA, uniformB, a.rate, seconds);
    if (found === undefined) continue;
    const fine = fineLine(a, b, found, found.sign);
    if (fine !== undefined) return { ...fine, sign: found.sign };
  }
  return undefined;
}

/** A signal from its first to its last sample, 0 in its gaps and on average in each piece. */
interface UniformSignal {
  readonly samples: Float64Array;
  readonly start: number;
}

function uniformSignal({ rate, pieces }: ClockedSignal, onto: number): UniformSignal {
  const { start } = pieces[0];
  const last = pieces[pieces.length - 1];
  const length = Math.ceil((last.start - start + last.samples.length / rate) * onto);
  const samples = new Float64Array(length);
  for (const piece of pieces) {
    const step = rate / onto;
    const from = Math.ceil((piece.start - start) * onto);
    const first = (from / onto + start - piece.start) * rate;
    const count = Math.ceil(piece.samples.length / step);
    const within = placesWithin(piece.samples.length, first, step, count);
    const values = valuesBetween(meanFree(piece.samples), first + within.from * step, step, within.to - within.from);
    samples.set(values.subarray(0, Math.max(0, length - from - within.from)), from + within.from);
  }
  return { samples, start };
}

/** Where the middle of a stretch of A was found in B. */
interface Sighting {
  readonly at: number;
  /** Time on B's clock less that on A's. */
  readonly lag: number;
  readonly correlation: number;
}

function coarseLine(
  a: UniformSignal,
  b: UniformSignal,
  rate: number,
  seconds: number,
): (ClockLine & { sign: 1 | -1 }) | undefined {
  const length = Math.min(
    Math.round(seconds * rate),
    Math.floor(a.samples.length / 3),
    Math.floor(b.samples.length / 2),
  );
  if (length < 32) return undefined;
  const find = finder(b.samples, length);
  const count = Math.min(stretchesLookedFor, Math.floor(a.samples.length / length));
  const sightings = Array.from({ length: count }, (_, k) => {
    const from = Math.round((k * (a.samples.length - length)) / Math.max(1, count - 1));
    const seen = find(a.samples.subarray(from, from + length));
    const at = a.start + (from + length / 2) / rate;
    return seen && { at, lag: b.start - a.start + (seen.place - from) / rate, correlation: seen.correlation };
  }).filter((one) => one !== undefined);
  return lineThroughMost(sightings);
}

/** Finds a stretch of some length in a long signal: undefined where no place stands out. */
function finder(
  whole: Float64Array,
  length: number,
): (stretch: Float64Array) => { readonly place: number; readonly correlation: number } | undefined {
  let size = 2;
  while (size < whole.length + length) size *= 2;
  const plan = realFft(size);
  const padded = new Float64Array(size);
  const [wr, wi, sr, si] = Array.from({ length: 4 }, () => new Float64Array(plan.bins));
  padded.set(whole);
  plan.forward(padded, wr, wi);
  const energies = runningEnergy(whole, length);
  const usual = energies.reduce((sum, value) => sum + value, 0) / energies.length;
  return (stretch) => {
    const free = meanFree(stretch);
    const own = energy(free);
    if (!(own > 0 && usual > 0)) return undefined;
    padded.fill(0);
    padded.set(free);
    plan.forward(padded, sr, si);
    for (let k = 0; k < plan.bins; k++) {
      const re = wr[k] * sr[k] + wi[k] * si[k];
      si[k] = wi[k] * sr[k] - wr[k] * si[k];
      sr[k] = re;
    }
    plan.inverse(sr, si, padded);
    // Where next to nothing was recorded, what little there is must not seem alike.
    const at = (place: number): number => padded[place] / Math.sqrt(own * Math.max(energies[place], 0.05 * usual));
    let best = 0;
    let squares = 0;
    for (let place = 0; place < energies.length; place++) {
      squares += at(place) ** 2;
      if (Math.abs(at(place)) > Math.abs(at(best))) best = place;
    }
    const chance = leastProminence * Math.sqrt(squares / energies.length);
    const correlation = at(best);
    return Math.abs(correlation) < Math.max(leastCorrelation, chance) ? undefined : { place: best, correlation };
  };
}

/** Sum of squares of the samples from each place on over a length. */
function runningEnergy(samples: Float64Array, length: number): Float64Array {
  const energies = new Float64Array(samples.length - length + 1);
  let sum = 0;
  for (let i = 0; i < samples.length; i++) {
    sum += samples[i] ** 2;
    if (i >= length) sum -= samples[i - length] ** 2;
    if (i >= length - 1) energies[i - length + 1] = Math.max(0, sum);
  }
  return energies;
}

/** The line on which most sightings lie, by their coefficients; undefined where half of these lie elsewhere. */
function lineThroughMost(sightings: readonly Sighting[]): (ClockLine & { sign: 1 | -1 }) | undefined {
  const all = sightings.reduce((sum, { correlation }) => sum + Math.abs(correlation), 0);
  let best: { score: number; line: ClockLine; sign: 1 | -1 } | undefined;
  sightings.forEach((one, i) => {
    sightings.slice(i).forEach((other, k) => {
      const fast = k === 0 ? 0 : (other.lag - one.lag) / (other.at - one.at);
      if (!(Math.abs(fast) <= mostFast)) return;
      const sign = one.correlation < 0 ? -1 : 1;
      const late = fast * one.at - one.lag;
      const score = sightings
        .filter(({ at, lag, correlation }) => sign * correlation > 0 && Math.abs(fast * at - late - lag) < nearLine)
        .reduce((sum, { correlation }) => sum + Math.abs(correlation), 0);
      if (score > (best?.score ?? 0)) best = { score, line: { late, fast }, sign };
    });
  });
  return best === undefined || best.score < all / 2 ? undefined : { ...best.line, sign: best.sign };
}
