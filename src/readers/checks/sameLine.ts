import { bandMeanSquare } from '../../signal/band.ts';
import { median } from '../../signal/percentile.ts';
import { longestOf, piecesOf } from '../../signal/stretch.ts';
import { hopOf, segmentCount, welchDensity, type Density } from '../../signal/welch.ts';
import { windowed } from '../../signal/windowed.ts';
import { windowShape } from '../../signal/windows.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import type { NamedRun, SetCheck, SetFinding } from './between.ts';
import { measured, type Question } from './checked.ts';
import { cosOf } from '../../numbers/trigonometry.ts';

/** A channel of a run, with its density in narrow bins. */
interface Narrow {
  readonly pieces: readonly Float64Array[];
  readonly density: Density;
}

interface Line {
  readonly channel: string;
  /** Hz */
  readonly frequency: number;
  readonly share: number;
}

/**
 * Lines that stand at one frequency in every run: mains, a fan, a pump. In each run the line is so many times what lies a few
 * bins beside it, and its height is steady from segment to segment, where the peak of a resonance that noise drives comes and
 * goes: of a sine the squared coefficient of variation of the segments' powers goes to 0, of noise in a narrow band it
 * is 1 (Bendat and Piersol, Random Data, 8.5). What follows the speed stands elsewhere once that differs, by three bins and more;
 * where the speeds tell nothing, only multiples of 50 and 60 Hz are told.
 */
export const sameLine: SetCheck = (runs, question = {}) => {
  const length = segmentLength(runs);
  if (length === undefined) return [];
  const channels = measured(runs[0]).map(({ name }) => name);
  const lines = channels.flatMap((channel) => {
    const narrow = runs.flatMap((run) => narrowOf(run, channel, length) ?? []);
    return narrow.length < runs.length ? [] : linesOf(narrow, channel, question);
  });
  return largestEach(lines, length)
    .filter(({ frequency }) => speedsOf(runs, frequency, length) === 'differ' || isOfMains(frequency, length))
    .slice(0, settings.line.most)
    .map((line) => lineFinding(line, runs, length, question));
};

/** s; as long as wanted, or as leaves each run its segments; undefined where they would be too short to tell a line. */
function segmentLength(runs: readonly NamedRun[]): number | undefined {
  const { longest, shortest, segments } = settings.line;
  const unbroken = runs.map(({ stretches, rate }) => longestOf(stretches) / rate);
  const length = Math.min(longest, Math.min(...unbroken) / ((segments + 1) / 2));
  return length < shortest ? undefined : length;
}

function narrowOf(run: NamedRun, name: string, seconds: number): Narrow | undefined {
  const found = measured(run).find((one) => one.name === name);
  const used = Math.round(seconds * run.rate);
  if (found === undefined || used < 64 || run.times !== undefined) return undefined;
  const pieces = piecesOf(found.samples, run.stretches).filter((piece) => piece.length >= used);
  if (pieces.length === 0) return undefined;
  return { pieces, density: welchDensity(pieces, { shape: windowShape('hann', used), rate: run.rate }) };
}

function linesOf(narrow: readonly Narrow[], channel: string, { low, high }: Question): Line[] {
  const [{ density: first }] = narrow;
  const lines: Line[] = [];
  for (let bin = reach + 1; bin < first.density.length - reach; bin++) {
    const at = bin * first.step;
    if ((low !== undefined && at < low) || (high !== undefined && at > high)) continue;
    if (!standsOut(first, bin)) continue;
    const bins = narrow.map(({ density }) => nearbyLine(density, at));
    if (bins.some((one) => one === undefined)) continue;
    const spreads = narrow.map((one, k) => unsteadiness(one, bins[k]!));
    if (!(mean(spreads) < settings.line.unsteady)) continue;
    const places = narrow.map(({ density }, k) => centre(density, bins[k]!));
    const shares = narrow.map(({ density }, k) => shareOf(density, bins[k]!, low, high));
    lines.push({ channel, frequency: mean(places), share: median(Float64Array.from(shares)) });
  }
  return lines;
}

const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** Bins beside a line that its window leaves free, from and to. */
const [beside, reach] = [3, 8];

/** What lies beside a bin: the larger of both sides, so that a slope is no line. */
function besideOf(density: Float64Array, bin: number): number {
  const side = (sign: 1 | -1): number =>
    mean(Array.from({ length: reach - beside + 1 }, (_, k) => density[bin + sign * (beside + k)]));
  const nearest = (density[bin - beside] + density[bin + beside]) / 2;
  return Math.max(side(1), side(-1), nearest);
}

/** Whether a bin is the highest of its neighbours, and so many times what lies beside. */
function standsOut({ density }: Density, bin: number): boolean {
  const height = density[bin];
  if (height < density[bin - 1] || height < density[bin + 1]) return false;
  return height > settings.line.height * besideOf(density, bin);
}

/** The bin of another run in which the same line stands, one off at most. */
function nearbyLine(density: Density, at: number): number | undefined {
  const bin = Math.round(at / density.step);
  return [bin, bin - 1, bin + 1].find(
    (one) => one > reach && one < density.density.length - reach && standsOut(density, one),
  );
}

/** Squared coefficient of variation of the segments' powers in a bin. */
function unsteadiness({ pieces, density: { segmentLength: length } }: Narrow, bin: number): number {
  const shape = windowShape('hann', length);
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

/** The line's share of the mean square of a band, or of all that is no mean. */
function shareOf(of: Density, bin: number, low: number | undefined, high: number | undefined): number {
  const { density, step, rate } = of;
  const line = [-2, -1, 0, 1, 2].reduce((sum, k) => sum + density[bin + k], 0) - 5 * besideOf(density, bin);
  const all = bandMeanSquare(of, low ?? 3 * step, Math.min(high ?? rate / 2, rate / 2));
  return Math.min(1, (Math.max(0, line) * step) / all);
}

/** Of a line that several channels show the one with the largest share; the largest first. */
function largestEach(lines: readonly Line[], seconds: number): Line[] {
  const sorted = [...lines].sort((one, other) => other.share - one.share);
  const kept: Line[] = [];
  for (const line of sorted)
    if (!kept.some(({ frequency }) => Math.abs(frequency - line.frequency) < 2 / seconds)) kept.push(line);
  return kept;
}

/** Whether a line that follows the speed would stand elsewhere in some run. */
function speedsOf(runs: readonly NamedRun[], frequency: number, seconds: number): 'differ' | 'alike' | 'unknown' {
  const speeds = runs.flatMap(({ speed }) => (speed !== undefined && speed > 0 ? [speed] : []));
  if (speeds.length < runs.length) return 'unknown';
  const moved = frequency * (1 - Math.min(...speeds) / Math.max(...speeds));
  return moved > 3 / seconds ? 'differ' : 'alike';
}

/** Whether a line is one of mains: where speeds tell nothing, any other may be of what is tested. */
function isOfMains(frequency: number, seconds: number): boolean {
  const off = (mains: number): number => Math.abs(frequency - mains * Math.max(1, Math.round(frequency / mains)));
  return [50, 60].some((mains) => off(mains) < 0.25 / seconds + 0.001 * frequency);
}

function lineFinding(line: Line, runs: readonly NamedRun[], seconds: number, { low, high }: Question): SetFinding {
  const speeds = speedsOf(runs, line.frequency, seconds);
  const facts = { run: runs[0].label, ...line, runs: runs.length, speeds, low, high };
  return { run: 0, finding: finding('set-line', 'note', facts, { value: line.share, threshold: 0 }) };
}
