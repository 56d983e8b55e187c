import { answered, type Answer, type Warning } from '../../result/result.ts';
import { lineBetweenBins, worstLoss } from '../../signal/lineHeight.ts';
import { fewestBins, findPeaks, unseenWidthBins, type Peak, type PeakOptions } from '../../signal/peaks.ts';
import type { Density } from '../../signal/welch.ts';
import { halfPowerWidthBins, windowShape } from '../../signal/windows.ts';
import { chiSquareQuantile } from '../../statistics/distributions/chiSquare.ts';
import type { Band } from '../../values/band.ts';
import type { PeakRow, PeakShape, PeaksValue } from '../../values/peaks.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import { tell } from '../messages/spectra.ts';
import { whyOutside } from './bands.ts';
import { densityOf } from './density.ts';
import { whyNoFrequencies } from './orderAxis.ts';

/** A window's half-power width in bins hardly depends on its length; so many samples tell it. */
const widthSamples = 1024;

interface Search {
  readonly spectrum: SpectrumValue;
  readonly range: Band | undefined;
  readonly count: number;
  readonly windowOf: (segmentSamples: number) => SearchWindow;
}

interface SearchWindow {
  readonly shape: Float64Array;
  /** Half-power width, in bins. */
  readonly width: number;
}

/** The window at each length of segment, made once: its width is found by trial, and 10,000 runs mostly share one length. */
function windowsOf({ window }: SpectrumValue): Search['windowOf'] {
  const made = new Map<number, SearchWindow>();
  return (segmentSamples) => {
    const length = Math.min(segmentSamples, widthSamples);
    const before = made.get(length);
    if (before !== undefined) return before;
    const shape = windowShape(window.shape, length);
    const one = { shape, width: halfPowerWidthBins(shape) };
    made.set(length, one);
    return one;
  };
}

/**
 * The lines and resonances that stand out of a spectrum's confidence band, entry by entry, and of each channel's mean
 * over several runs. Refuses a spectrum over orders, and a range past half a run's rate.
 * @param range where to look, in Hz; everywhere unless given
 * @param count how many at most of each entry, the highest ones
 */
export function peaksOf(spectrum: SpectrumValue, range: Band | undefined, count = 5): Answer<PeaksValue> {
  const refusal =
    whyNoFrequencies(spectrum, 'spectrum') ??
    (range === undefined ? undefined : whyOutside(range, spectrum.entries, 'range'));
  if (refusal !== undefined) return refusal;
  const search = { spectrum, range, count, windowOf: windowsOf(spectrum) };
  const rows = [
    ...spectrum.entries.flatMap((entry) => peaksIn(densityOf(entry), entry.level, entry, entry.run.label, search)),
    ...meanPeaks(search),
  ];
  return answered({ kind: 'peaks', spectrum, rows, unseenWidth: unseenWidthOf(search) }, doubts(rows, search));
}

/** Half-power width below which a resonance looks like a line, in Hz, of the entry with the widest bins. */
function unseenWidthOf({ spectrum, windowOf }: Search): number {
  return spectrum.entries.reduce(
    (widest, { spacing, segmentSamples }) =>
      Math.max(widest, unseenWidthBins(windowOf(segmentSamples).width) * spacing),
    -Infinity,
  );
}

function peaksIn(
  of: Density,
  level: Float64Array,
  { channel, unit, segmentSamples }: SpectrumEntry,
  run: string,
  { spectrum, range, count, windowOf }: Search,
): PeakRow[] {
  const { shape, width } = windowOf(segmentSamples);
  const options: PeakOptions = {
    low: range?.from ?? channel.lowCut ?? 0,
    high: range?.to ?? of.rate / 2,
    confidence: spectrum.confidence,
    quantile: chiSquareQuantile,
    windowWidth: width,
    count,
  };
  return findPeaks(of, options).map((peak) => {
    const line = peak.line ? lineBetweenBins(of.density, peak.bin, shape, segmentSamples) : undefined;
    const raised = line === undefined ? 1 : spectrum.form === 'amplitude' ? line.gain : line.gain ** 2;
    return {
      run,
      channel: channel.name,
      frequency: line === undefined ? peak.frequency : (peak.bin + line.offset) * of.step,
      level: level[peak.bin] * raised,
      shape: shapeOf(peak, line !== undefined),
      correction: line === undefined ? undefined : raised - 1,
      unit,
      width: peak.width ?? undefined,
      damping: peak.damping ?? undefined,
      prominence: peak.prominence,
    };
  });
}

/** A line whose mirror image or neighbour leaks into it can't be corrected: it counts as blurred. */
function shapeOf({ line, width, resolved }: Peak, corrected: boolean): PeakShape {
  if (line && corrected) return 'line';
  if (width === null) return 'blurred';
  return resolved ? 'resonance' : 'unresolved';
}

/** Peaks of each channel's mean over runs, where there is one of several. */
function meanPeaks(search: Search): PeakRow[] {
  const { means, entries: all } = search.spectrum;
  return means.flatMap(({ channel: name, level, spacing }) => {
    const entries = all.filter(({ channel }) => channel.name === name);
    if (entries.length < 2) return [];
    const bins = level.length;
    const density = new Float64Array(bins);
    for (const entry of entries) for (let k = 0; k < bins; k++) density[k] += entry.density[k] / entries.length;
    const averages = entries.reduce((sum, entry) => sum + entry.averages, 0);
    const mean = { ...densityOf(entries[0]), density, step: spacing, averages };
    return peaksIn(mean, level, entries[0], 'mean', search);
  });
}

function doubts(rows: readonly PeakRow[], { spectrum, range }: Search): Warning[] {
  if (rows.length === 0) return [tell('peaks.none', range === undefined ? {} : { range })];
  // With a mean, its peaks speak for those of the runs.
  const means = rows.filter(({ run }) => run === 'mean');
  const spoken = means.length > 0 ? means : rows;
  const narrow = spoken
    .filter(({ shape }) => shape === 'unresolved')
    .sort((a, b) => a.width! - b.width!)
    .map(({ frequency, width }) => ({ frequency, width: width! }));
  const blurred = spoken.filter(({ shape }) => shape === 'blurred').map(({ frequency }) => frequency);
  const { spacing, segmentSamples } = spectrum.entries[0];
  const shape = windowShape(spectrum.window.shape, Math.min(segmentSamples, widthSamples));
  const amplitude = 1 - worstLoss(shape);
  const loss = 1 - (spectrum.form === 'amplitude' ? amplitude : amplitude ** 2);
  return [
    narrow.length === 0 ? [] : tell('peaks.unresolved', { peaks: narrow, spacing, fewest: fewestBins }),
    blurred.length === 0 ? [] : tell('peaks.blurred', { frequencies: blurred, loss }),
  ].flat();
}
