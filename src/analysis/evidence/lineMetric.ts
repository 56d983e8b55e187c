import { success, type Result } from '../../result/result.ts';
import { bandMeanSquare } from '../../signal/band.ts';
import { mainLobeBins } from '../../signal/windows.ts';
import type { Band } from '../../values/band.ts';
import type { SpectrumEntry } from '../../values/spectrum.ts';
import { refuse } from '../messages/evidence.ts';
import { speedOf } from '../recordings/turningRate.ts';
import { densityOf } from '../spectra/density.ts';
import type { Side, SideAt } from './sides.ts';

/** A line that goes with a figure of the run sheet: its order, and the column of speeds or turning rates. */
export interface LineMetric {
  readonly order: number;
  readonly column: string;
}

/** The metric's word in the language: `line 1 x speed`. */
export const lineWord = ({ order, column }: LineMetric): string => `line ${order} x ${column}`;

/** The line that a metric's word is of; undefined of another metric. */
export function lineOf(metric: string): LineMetric | undefined {
  const [word, order, by, ...column] = metric.split(' ');
  return word === 'line' && by === 'x' ? { order: Number(order), column: column.join(' ') } : undefined;
}

/** So far from its frequency a line is looked for at least, as a share of it: speeds wander (engineering choice). */
const wander = 0.02;

/**
 * Where the line lies in each run of a side, in Hz: the main lobe of the window about its frequency, or 2 % of that on both
 * sides where this is wider. A turning rate makes orders, a speed in m/s cycles per metre of way. Refused of a run of
 * which the sheet has no figure above 0 in a unit of either.
 */
export function lineBands({ order, column }: LineMetric, side: Side, at: SideAt): Result<readonly Band[]> {
  const lobe = mainLobeBins(side.window.shape);
  const bands: Band[] = [];
  for (const [index, { run }] of side.tracks.entries()) {
    const speed = speedOf(run, column);
    if (!('rate' in speed)) return refuse('metric.line-speed', speed, at);
    const frequency = order * speed.rate;
    const spacing = side.spectrum?.entries[index].spacing ?? 1 / side.window.length;
    const beside = Math.max(lobe * spacing, wander * frequency);
    bands.push({ from: Math.max(0, frequency - beside), to: frequency + beside });
  }
  return success(bands);
}

/** What the runs of a side have of a line, each in its own band. */
export interface MeasuredLine {
  /** R.m.s. of each run, in the channel's unit. */
  readonly rms: readonly number[];
  /** Share of each run's mean square over all frequencies but 0. */
  readonly shares: readonly number[];
  /** Runs in whose band less than half the power is the line's: as much stands beside it. */
  readonly faint: number;
}

/** The line in each entry of a side's spectrum. @param bands in the order of the entries */
export function measuredLine(entries: readonly SpectrumEntry[], bands: readonly Band[]): MeasuredLine {
  const found = entries.map((entry, k) => lineIn(entry, bands[k]));
  return {
    rms: found.map(({ power }) => Math.sqrt(power)),
    shares: found.map(({ power, all }) => power / all),
    faint: found.filter(({ power, beside }) => power < 2 * beside).length,
  };
}

/** Power in the band, in as wide a stretch around it (half of it on either side), and in all frequencies but 0. */
function lineIn(
  entry: SpectrumEntry,
  { from, to }: Band,
): { readonly power: number; readonly beside: number; readonly all: number } {
  const density = densityOf(entry);
  const half = entry.run.rate / 2;
  const power = bandMeanSquare(density, from, to);
  const width = to - from;
  const [low, high] = [Math.max(entry.spacing / 2, from - width / 2), Math.min(half, to + width / 2)];
  const around = bandMeanSquare(density, low, high) - power;
  const beside = (around * width) / Math.max(high - low - width, entry.spacing);
  return { power, beside, all: bandMeanSquare(density, entry.spacing / 2, half) };
}
