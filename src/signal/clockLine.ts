import { crossProducts, energy, meanFree } from './delay.ts';
import { alongClock } from './alongClock.ts';
import { reach as sincReach, valuesBetween } from './interpolate.ts';
import { median } from './percentile.ts';
import type { ClockedSignal, ClockLine, TwoClocks } from './clocks.ts';

/** s; and the most samples of a stretch whose delay is taken. */
const longestStretch = 10;
const shortestStretch = 1;
const mostSamples = 1 << 15;
const stretchesWanted = 12;
const mostStretches = 40;
/** How far a stretch may lie from the line that is refined, in s, at each refinement; never under 4 samples. */
const searched = [0.06, 0.01, 0, 0];
/** Fewer stretches tell no rate. */
const fewestForRate = 4;
const leastCorrelation = 0.1;
/** What lies so many times the median distance from the line is left out. */
const farFactor = 6;

/** By how much B's clock is ahead of A's at a time of A's, both in s. */
interface Reading {
  readonly at: number;
  readonly ahead: number;
  readonly weight: number;
}

/**
 * A line between two clocks, drawn anew through the delays of short stretches by weighted least squares, the weight of a
 * stretch r^2/(1 - r^2) of its correlation r, as the variance of a delay goes with its inverse (Carter 1987, Proc. IEEE
 * 75(2)).
 *
 * @param sign -1 where B reads the other way round
 * @returns undefined where no stretch of both is alike
 */
export function fineLine(
  a: ClockedSignal,
  b: ClockedSignal,
  coarse: ClockLine,
  sign: 1 | -1,
): Omit<TwoClocks, 'sign'> | undefined {
  let found: Omit<TwoClocks, 'sign'> | undefined;
  let line = coarse;
  for (const within of searched) {
    const readings = readingsAlong(a, b, line, sign, Math.max(4, Math.round(within * a.rate)));
    const next = fitted(readings);
    if (next === undefined) return undefined;
    found = next;
    line = next;
  }
  return found;
}

function readingsAlong(a: ClockedSignal, b: ClockedSignal, line: ClockLine, sign: 1 | -1, reach: number): Reading[] {
  const pairs = alongClock(a, b, line);
  const whole = pairs.reduce((sum, { input }) => sum + input.length, 0);
  const seconds = Math.min(longestStretch, Math.max(shortestStretch, whole / a.rate / stretchesWanted));
  const length = Math.min(Math.round(seconds * a.rate), mostSamples);
  const every = Math.max(length, Math.floor(whole / mostStretches));
  const readings: Reading[] = [];
  for (const { input, output, start } of pairs) {
    for (let from = 0; from + length <= input.length; from += every) {
      const x = meanFree(input.subarray(from, from + length));
      const y = meanFree(output.subarray(from, from + length));
      const seen = peakWithin(x, y, sign, Math.min(reach, Math.floor(length / 4)));
      if (seen === undefined) continue;
      const at = start + (from + length / 2) / a.rate;
      readings.push({ at, ahead: line.fast * at - line.late + seen.samples / a.rate, weight: seen.weight });
    }
  }
  return readings;
}

/** The delay of y within a reach, in samples; undefined where its largest coefficient is none. */
function peakWithin(
  x: Float64Array,
  y: Float64Array,
  sign: 1 | -1,
  reach: number,
): { readonly samples: number; readonly weight: number } | undefined {
  const size = Math.sqrt(energy(x) * energy(y));
  if (!(size > 0)) return undefined;
  const products = crossProducts(x, y);
  const at = (lag: number): number => {
    const overlap = (x.length - Math.abs(lag)) / x.length;
    return (sign * products[lag < 0 ? products.length + lag : lag]) / size / overlap;
  };
  let best = -reach;
  for (let lag = -reach; lag <= reach; lag++) if (at(lag) > at(best)) best = lag;
  if (Math.abs(best) === reach || at(best) < leastCorrelation) return undefined;
  const square = Math.min(at(best), 0.9999) ** 2;
  return { samples: best + besideOf(at, best), weight: square / (1 - square) };
}

/**
 * Where a curve of whole lags has its maximum beside its largest value, in lags: it is read at eighths of a lag first, since a
 * parabola through whole ones makes too little of small distances where the content reaches far up.
 */
function besideOf(at: (lag: number) => number, best: number): number {
  const near = Float64Array.from({ length: 2 * sincReach + 4 }, (_, i) => at(best - sincReach - 1 + i));
  const fine = valuesBetween(near, sincReach, 1 / 8, 17);
  let top = 1;
  for (let i = 1; i < 16; i++) if (fine[i] > fine[top]) top = i;
  const [before, peak, after] = [fine[top - 1], fine[top], fine[top + 1]];
  const bend = before - 2 * peak + after;
  const beside = bend === 0 ? 0 : (before - after) / (2 * bend);
  return (top - 8 + Math.max(-1, Math.min(1, beside))) / 8;
}

/** The line through the readings, without those that lie far off. */
function fitted(readings: readonly Reading[]): Omit<TwoClocks, 'sign'> | undefined {
  if (readings.length === 0) return undefined;
  const first = leastSquares(readings);
  const from = ({ line: { fast, late } }: Fit, { at, ahead }: Reading): number => ahead - (fast * at - late);
  const most = farFactor * median(Float64Array.from(readings, (one) => Math.abs(from(first, one))));
  const kept = readings.filter((one) => Math.abs(from(first, one)) <= most);
  const last = kept.length < fewestForRate ? first : leastSquares(kept);
  const distances = readings.map((one) => ({ by: from(last, one), at: one.at }));
  const farthest = distances.reduce((far, one) => (Math.abs(one.by) > Math.abs(far.by) ? one : far));
  const { line, count, ...errors } = last;
  return { ...line, ...errors, stretches: count, farthest };
}

interface Fit extends Pick<TwoClocks, 'lateError' | 'fastError' | 'scatter'> {
  readonly line: ClockLine;
  readonly count: number;
}

/** By weighted least squares about the weighted mean time; of few readings a line without a rate. */
function leastSquares(readings: readonly Reading[]): Fit {
  const count = readings.length;
  const sum = (of: (one: Reading) => number): number => readings.reduce((all, one) => all + of(one), 0);
  const weight = sum((one) => one.weight);
  const middle = sum((one) => one.weight * one.at) / weight;
  const mean = sum((one) => one.weight * one.ahead) / weight;
  const squares = sum((one) => one.weight * (one.at - middle) ** 2);
  const hasRate = count >= fewestForRate;
  const fast = hasRate ? sum((one) => one.weight * (one.at - middle) * (one.ahead - mean)) / squares : 0;
  const df = count - (hasRate ? 2 : 1);
  const left = sum((one) => one.weight * (one.ahead - mean - fast * (one.at - middle)) ** 2);
  const variance = df > 0 ? left / df : 0;
  return {
    line: { late: fast * middle - mean, fast },
    lateError: df > 0 ? Math.sqrt(variance * (1 / weight + (hasRate ? middle ** 2 / squares : 0))) : undefined,
    fastError: hasRate ? Math.sqrt(variance / squares) : undefined,
    scatter: Math.sqrt((variance * count) / weight),
    count,
  };
}
