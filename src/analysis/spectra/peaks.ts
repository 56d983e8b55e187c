import { answered, type Answer, type Warning } from '../../result/result.ts';
import { findPeaks, type PeakOptions } from '../../signal/peaks.ts';
import type { Density } from '../../signal/welch.ts';
import { halfPowerWidthBins, windowShape } from '../../signal/windows.ts';
import { chiSquareQuantile } from '../../statistics/distributions/chiSquare.ts';
import type { Band } from '../../values/band.ts';
import type { PeakRow, PeaksValue } from '../../values/peaks.ts';
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
  const search = { spectrum, range, count };
  const rows = [
    ...spectrum.entries.flatMap((entry) => peaksIn(densityOf(entry), entry.level, entry, entry.run.label, search)),
    ...meanPeaks(search),
  ];
  return answered({ kind: 'peaks', spectrum, rows }, doubts(rows, range));
}

function peaksIn(
  of: Density,
  level: Float64Array,
  { channel, unit, segmentSamples }: SpectrumEntry,
  run: string,
  { spectrum, range, count }: Search,
): PeakRow[] {
  const shape = windowShape(spectrum.window.shape, Math.min(segmentSamples, widthSamples));
  const options: PeakOptions = {
    low: range?.from ?? 0,
    high: range?.to ?? of.rate / 2,
    confidence: spectrum.confidence,
    quantile: chiSquareQuantile,
    windowWidth: halfPowerWidthBins(shape),
    count,
  };
  return findPeaks(of, options).map((peak) => ({
    run,
    channel: channel.name,
    frequency: peak.frequency,
    level: level[peak.bin],
    unit,
    width: peak.width ?? undefined,
    damping: peak.damping ?? undefined,
    prominence: peak.prominence,
  }));
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

const doubts = (rows: readonly PeakRow[], range: Band | undefined): Warning[] =>
  rows.length > 0 ? [] : [tell('peaks.none', range === undefined ? {} : { range })];
