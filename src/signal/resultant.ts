import { moments, type Levels } from './levels.ts';
import { percentiles } from './percentile.ts';
import { runningRms, runningRmsAt, type Running, type UnevenRunning } from './running.ts';
import type { Density } from './welch.ts';

// The resultant of axes at right angles. Mean squares, and with them densities, add over the axes; the length of the
// vector is no vibration but its rectified size, and is used for its largest values alone. Nothing here depends on how
// the axes are turned.

/** Levels of a vector; what a signal has beside these needs a sign. */
export type ResultantLevels = Pick<Levels, 'count' | 'mean' | 'rms' | 'totalRms' | 'peak' | 'crest' | 'p99' | 'p999'>;

/**
 * Levels of the vector of the axes, each less its own mean: r.m.s. the root of the axes' summed mean squares, peak and
 * percentiles those of the vector's length, `mean` the length of the vector of the means.
 *
 * @param axes at least one, all of one length and unit, all finite
 * @param scratch room for the lengths, at least as long as an axis; made if not given
 * @returns in the axes' unit
 * @throws RangeError for no axes, axes of different lengths, no samples, or a sample that is no finite number
 */
export function resultantLevels(axes: readonly Float64Array[], scratch?: Float64Array): ResultantLevels {
  const each = axes.map(moments);
  const lengths = resultantLength(
    axes,
    each.map(({ mean }) => mean),
    scratch?.subarray(0, axes[0]?.length),
  );
  const { count } = each[0];
  const meanSquare = each.reduce((sum, { m2 }) => sum + m2, 0);
  const squaredMean = each.reduce((sum, { mean }) => sum + mean * mean, 0);
  let peak = 0;
  for (const length of lengths) if (length > peak) peak = length;
  const [p99, p999] = percentiles(lengths, [0.99, 0.999]);
  const rms = Math.sqrt(meanSquare);
  return {
    count,
    mean: Math.sqrt(squaredMean),
    rms,
    totalRms: Math.sqrt(meanSquare + squaredMean),
    peak,
    crest: meanSquare === 0 ? null : peak / rms,
    p99,
    p999,
  };
}

/**
 * Length of the vector of the axes less their means, sqrt(sum of (axis - mean)^2), sample by sample.
 *
 * @param axes at least one, all of one length and unit
 * @param means one an axis
 * @param into receives the lengths; made if not given
 * @returns `into`, in the axes' unit, never negative
 * @throws RangeError for no axes, or axes of different lengths
 */
export function resultantLength(
  axes: readonly Float64Array[],
  means: readonly number[],
  into: Float64Array = new Float64Array(axes[0]?.length ?? 0),
): Float64Array {
  if (axes.length === 0) throw new RangeError('a resultant needs at least one axis');
  if (axes.some((axis) => axis.length !== axes[0].length))
    throw new RangeError('the axes of a resultant have different lengths');
  for (let i = 0; i < into.length; i++) {
    let sum = 0;
    for (let axis = 0; axis < axes.length; axis++) sum += (axes[axis][i] - means[axis]) ** 2;
    into[i] = Math.sqrt(sum);
  }
  return into;
}

/**
 * Density of the vector: the sum of its axes' densities, the trace of their spectral matrix.
 *
 * Its `averages` are those of one axis. The variance of the sum is the sum of |S_ij|^2 / averages over all pairs of
 * axes, whose cross spectra S_ij lie between none and full coherence: the effective averages then lie between those of
 * one axis (all axes move as one) and as many times that as there are axes (equal and independent). One axis' own are
 * exact in the first case, and give limits that are wider than need be in all others, never narrower.
 *
 * @param axes at least one, over the same bins
 * @returns unit^2/Hz
 */
export const summedDensity = (axes: readonly Density[]): Density => ({
  ...axes[0],
  density: summed(axes.map(({ density }) => density)),
});

/** The `lists`, all of one length, added up place by place; one alone is handed on as it is. */
export function summed(lists: readonly Float64Array[]): Float64Array {
  const [first, ...others] = lists;
  if (others.length === 0) return first;
  const all = first.slice();
  for (const one of others) for (let i = 0; i < all.length; i++) all[i] += one[i];
  return all;
}

/**
 * Running r.m.s. of the vector of the axes: the root of the axes' summed running mean squares.
 *
 * @param axes one unbroken stretch of each, at least one
 * @param length samples a span, as of `runningRms`
 * @param means what is taken from each axis first
 * @returns values in the axes' unit, one for each whole span
 * @throws RangeError for a span that does not fit
 */
export function resultantRunning(axes: readonly Float64Array[], length: number, means: readonly number[]): Running {
  const each = axes.map((samples, axis) => runningRms(samples, length, means[axis]));
  return each.length === 1 ? each[0] : { length, ...vectorOf(each, length - 1) };
}

/**
 * Running r.m.s. of the vector of axes that were not sampled evenly, as of `runningRmsAt`.
 *
 * @param axes one unbroken stretch of each, at least one
 * @param times of the samples in s, never falling
 * @param span `tau` and the mean `step` in s, and what is taken from each axis first
 * @returns values in the axes' unit, none where the stretch is shorter than a span
 */
export function resultantRunningAt(
  axes: readonly Float64Array[],
  times: Float64Array,
  { means, ...span }: { readonly tau: number; readonly step: number; readonly means: readonly number[] },
): UnevenRunning {
  const each = axes.map((samples, axis) => runningRmsAt(samples, times, { ...span, mean: means[axis] }));
  const { begin } = each[0];
  return each.length === 1 ? each[0] : { begin, ...vectorOf(each, begin) };
}

/** The root of the axes' summed mean squares. @param begin index of the sample with which the first span ends */
function vectorOf(
  each: readonly Pick<Running, 'values'>[],
  begin: number,
): Pick<Running, 'values' | 'maximum' | 'maximumAt'> {
  const values = summed(each.map((one) => one.values.map((value) => value * value))).map(Math.sqrt);
  let at = 0;
  for (let i = 1; i < values.length; i++) if (values[i] > values[at]) at = i;
  return { values, maximum: values[at], maximumAt: at + begin };
}
