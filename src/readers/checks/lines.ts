import { bandMeanSquare } from '../../signal/band.ts';
import { longestOf, piecesOf } from '../../signal/stretch.ts';
import { hopOf, segmentCount, welchDensity, type Density } from '../../signal/welch.ts';
import { windowed } from '../../signal/windowed.ts';
import { sharedWindow } from '../../signal/windows.ts';
import { cosOf } from '../../numbers/trigonometry.ts';
import { settings } from '../settings.ts';
import { measured, type CheckedRun, type Question } from './checked.ts';

/** What stands out of the density of a channel in narrow bins. Plain data. */
export interface ChannelLines {
  readonly name: string;
  /** Width of its bins in Hz. */
  readonly step: number;
  /** By rising frequency. */
  readonly lines: readonly Line[];
}

/** A bin that stands out of those beside it. */
export interface Line {
  readonly bin: number;
  /** Hz; the centre of its power. */
  readonly centre: number;
  /** Squared coefficient of variation of the segments' powers. */
  readonly unsteadiness: number;
  /** Of the mean square of the band of interest, or of all that is no mean. */
  readonly share: number;
}

/** A channel of a run, with its density in narrow bins. */
interface Narrow {
  readonly pieces: readonly Float64Array[];
  readonly density: Density;
}

/** s; length of the segments by which lines are told: as long as wanted, or as leaves the run its segments. */
export function lineSegment({ stretches, rate }: CheckedRun): number {
  const { longest, segments } = settings.line;
  return Math.min(longest, longestOf(stretches) / rate / ((segments + 1) / 2));
}

/** Lines of each channel that is long enough and even; none of a run that is too short to tell one. */
export function linesOf(run: CheckedRun, { low, high }: Question): ChannelLines[] {
  const seconds = lineSegment(run);
  if (seconds < settings.line.shortest || run.times !== undefined) return [];
  const used = Math.round(seconds * run.rate);
  if (used < 64) return [];
  return measured(run).flatMap(({ name, samples }) => {
    const pieces = piecesOf(samples, run.stretches).filter((piece) => piece.length >= used);
    if (pieces.length === 0) return [];
    const density = welchDensity(pieces, { shape: sharedWindow('hann', used), rate: run.rate });
    const bins = Array.from(density.density.keys()).filter((bin) => standsOut(density, bin));
    if (bins.length === 0) return [{ name, step: density.step, lines: [] }];
    const all = bandMeanSquare(density, low ?? 3 * density.step, Math.min(high ?? density.rate / 2, density.rate / 2));
    const lines = bins.map((bin) => ({
      bin,
      centre: centre(density, bin),
      unsteadiness: unsteadiness({ pieces, density }, bin),
      share: shareOf(density, bin, all),
    }));
    return [{ name, step: density.step, lines }];
  });
}

export const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** Bins beside a line that its window leaves free, from and to. */
const [beside, reach] = [3, 8];

/** What lies beside a bin: the larger of both sides, so that a slope is no line. */
function besideOf(density: Float64Array, bin: number): number {
  const side = (sign: 1 | -1): number =>
    mean(Array.from({ length: reach - beside + 1 }, (_, k) => density[bin + sign * (beside + k)]));
  return Math.max(side(1), side(-1), nearestOf(density, bin));
}

const nearestOf = (density: Float64Array, bin: number): number => (density[bin - beside] + density[bin + beside]) / 2;

/** Whether a bin is the highest of its neighbours, and so many times what lies beside. */
function standsOut({ density }: Density, bin: number): boolean {
  if (bin <= reach || bin >= density.length - reach) return false;
  const height = density[bin];
  if (height < density[bin - 1] || height < density[bin + 1]) return false;
  // Most don't stand out of the nearest.
  const { height: least } = settings.line;
  return height > least * nearestOf(density, bin) && height > least * besideOf(density, bin);
}

/** Squared coefficient of variation of the segments' powers in a bin. */
function unsteadiness({ pieces, density: { segmentLength: length } }: Narrow, bin: number): number {
  const shape = sharedWindow('hann', length);
  const into = new Float64Array(length);
  const hop = hopOf(length, 0.5);
  const powers = pieces.flatMap((piece) =>
    Array.from({ length: segmentCount(piece.length, length, hop) }, (_, segment) => {
      windowed(piece, segment * hop, shape, into);
      return powerAt(into, bin);
    }),
  );
  const middle = mean(powers);
  return mean(powers.map((power) => (power - middle) ** 2)) / middle ** 2;
}

/** Goertzel's recursion: the squared transform of a segment in one bin. */
function powerAt(segment: Float64Array, bin: number): number {
  const turn = 2 * cosOf((2 * Math.PI * bin) / segment.length);
  let [last, before] = [0, 0];
  for (const value of segment) [last, before] = [value + turn * last - before, last];
  return last * last + before * before - turn * last * before;
}

/** Hz; the centre of a line's power in its bins. */
function centre({ density, step }: Density, bin: number): number {
  const sides = [density[bin - 1], density[bin], density[bin + 1]];
  const total = sides[0] + sides[1] + sides[2];
  return (bin + (sides[2] - sides[0]) / total) * step;
}

/** The line's share of a mean square. */
function shareOf({ density, step }: Density, bin: number, all: number): number {
  const line = [-2, -1, 0, 1, 2].reduce((sum, k) => sum + density[bin + k], 0) - 5 * besideOf(density, bin);
  return Math.min(1, (Math.max(0, line) * step) / all);
}
