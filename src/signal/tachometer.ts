import { sortNumbers } from './sort.ts';

/** Shares of the samples that count as the top and the bottom of the pulses: short pulses still have a top. */
const extremes = 0.002;
/** How far below the middle, as a share of the height, a signal has to fall before it can pulse again. */
const hysteresis = 0.2;

/**
 * When the pulses of a tachometer rise, between the samples: upward crossings of the middle between bottom and top, straight between
 * two samples, with a hysteresis that noise does not cross. Sines count as pulses.
 *
 * @param samples one unbroken stretch
 * @param rate samples a second, in Hz
 * @returns s from the first sample; none of a signal that stands still
 */
export function pulseTimes(samples: Float64Array, rate: number): Float64Array {
  const sorted = sortNumbers(samples.slice());
  const beside = Math.floor(extremes * sorted.length);
  const [low, high] = [sorted[beside], sorted[sorted.length - 1 - beside]];
  if (!(high > low)) return new Float64Array(0);
  const middle = (low + high) / 2;
  const below = middle - hysteresis * (high - low);
  const found: number[] = [];
  let isArmed = false;
  for (let i = 0; i < samples.length; i++) {
    if (samples[i] < below) isArmed = true;
    if (!isArmed || samples[i] < middle || i === 0) continue;
    isArmed = false;
    found.push((i - (samples[i] - middle) / (samples[i] - samples[i - 1])) / rate);
  }
  return Float64Array.from(found);
}

/** Pulses on either side of one by whose usual distance it is judged. */
const neighbours = 6;
/** A distance so many times as long as the usual one, or as short, is of a pulse that was missed or counted twice (engineering choice). */
const unlike = 1.6;

/**
 * The first pulse that does not follow the one before it at about the distance of those around, as where one was missed or
 * counted twice; undefined where there is none.
 *
 * @param times of the pulses in s, rising
 */
export function oddPulse(times: Float64Array): number | undefined {
  const distances = Float64Array.from({ length: Math.max(0, times.length - 1) }, (_, k) => times[k + 1] - times[k]);
  for (let k = 0; k < distances.length; k++) {
    const around = sortNumbers(distances.slice(Math.max(0, k - neighbours), k + neighbours + 1));
    const usual = around[around.length >> 1];
    if (distances[k] > unlike * usual || distances[k] < usual / unlike) return k + 1;
  }
  return undefined;
}

/** Pulses on either side that a parabola goes through at least, and the time in s that it goes over where there are more. */
const fewestBeside = 2;
const smoothedOver = 0.5;

/**
 * Times of pulses without what the sampling does to them: an edge is known to a sample, and a line of high order would be smeared by
 * that. Each is read off a parabola through those within half a second on both sides, at least two (least squares; Savitzky and
 * Golay 1964), so that speeds which change more slowly than that stay.
 *
 * @param times of the pulses in s, rising, at least 5
 * @returns as many times in s
 * @throws RangeError for fewer than 5
 */
export function smoothedPulses(times: Float64Array): Float64Array {
  const count = times.length;
  if (count < 2 * fewestBeside + 1) throw new RangeError(`${count} pulses are too few for a parabola`);
  const usual = (times[count - 1] - times[0]) / (count - 1);
  const beside = Math.min(Math.max(fewestBeside, Math.round(smoothedOver / usual)), (count - 1) >> 1);
  return times.map((_, k) => {
    const from = Math.min(Math.max(0, k - beside), count - 1 - 2 * beside);
    return parabolaAt(times.subarray(from, from + 2 * beside + 1), k - from - beside);
  });
}

/**
 * A parabola by least squares through values at whole places about the middle one, at one of these places.
 *
 * @param values an odd number of them, at -m..m
 */
function parabolaAt(values: Float64Array, place: number): number {
  const m = (values.length - 1) / 2;
  let [sum, first, second] = [0, 0, 0];
  for (let i = -m; i <= m; i++) {
    const value = values[i + m];
    sum += value;
    first += i * value;
    second += i * i * value;
  }
  const n = 2 * m + 1;
  const s2 = (m * (m + 1) * n) / 3;
  const s4 = (s2 * (3 * m * m + 3 * m - 1)) / 5;
  const bend = (second - (s2 * sum) / n) / (s4 - (s2 * s2) / n);
  return (sum - bend * s2) / n + (first / s2) * place + bend * place * place;
}
