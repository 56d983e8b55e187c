import { findPeaks, type PeakOptions } from '../../signal/peaks.ts';
import type { Density } from '../../signal/welch.ts';
import { halfPowerWidthBins, windowShape } from '../../signal/windows.ts';
import { chiSquareQuantile } from '../../statistics/distributions/chiSquare.ts';
import { hertz } from '../../analysis/amounts.ts';
import { whyOutside } from '../../analysis/spectra/bands.ts';
import { densityOf } from '../../analysis/spectra/density.ts';
import { operand, option, quantityIn, si, valueOf } from '../arguments.ts';
import { whyNoFrequencies } from '../../analysis/spectra/orderAxis.ts';
import type { Band } from '../../values/band.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import type { PeakRow } from '../../values/peaks.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse, type Warning } from '../../result/result.ts';

const usualCount = 5;
/** A window's half-power width in bins hardly depends on its length; so many samples tell it. */
const widthSamples = 1024;

export const peaks: Verb = {
  form: {
    verb: 'peaks',
    summary: 'Finds the lines and resonances that stand out of a spectrum.',
    help: 'A peak counts only where its lower confidence limit lies above the upper limit of the dips on both its sides, with limits that hold for all bins of the range at once (Bonferroni), so that noise alone is not listed. The frequency lies between the bins (a parabola through the logarithms). The width is that of half the power, with the window’s own width taken out in squares; where it is no wider than a pure line would seem, there is none. Damping ratio = width/(2f), where the width spans at least five bins and the ratio is below 0.1 (Bendat and Piersol, Engineering Applications of Correlation and Spectral Analysis, 4). With several runs the peaks of their mean come last, as run `mean`.',
    operands: [
      { name: 'spectrum', doc: 'The spectrum.', accepts: [{ type: 'value', kinds: ['spectrum'] }] },
      {
        name: 'range',
        doc: 'Where to look, as in `5..100 Hz`.',
        accepts: [{ type: 'range', dimension: 'frequency' }],
        optional: true,
      },
    ],
    options: [
      {
        keyword: 'count',
        doc: 'How many at most of each run and channel, the highest ones.',
        accepts: [{ type: 'integer', least: 1, most: 1000 }],
        default: '5',
      },
    ],
    gives: 'peaks',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\npeaks (spectrum foam using window hann 4 s) 5..100 Hz count 5',
    ],
  },
  evaluate(given) {
    const spectrum = valueOf(given, 'spectrum', 'spectrum');
    const refusal = whyNoFrequencies(spectrum, 'spectrum');
    if (refusal !== undefined) return refusal;
    const asked = operand(given, 'range');
    const range = asked?.type === 'range' ? { from: si(asked.from), to: si(asked.to) } : undefined;
    if (range !== undefined) {
      const outside = whyOutside(range, spectrum.entries, 'range');
      if (outside !== undefined) return outside;
    }
    const wanted = quantityIn(option(given, 'count'));
    const count = wanted === undefined ? usualCount : si(wanted);
    if (!(Number.isInteger(count) && count >= 1))
      return refuse('peaks.count', 'The count of peaks is a whole number from 1.', 'count');
    const rows = [
      ...spectrum.entries.flatMap((entry) =>
        peaksIn(densityOf(entry), entry.level, entry, entry.run.label, spectrum, range, count),
      ),
      ...meanPeaks(spectrum, range, count),
    ];
    return answer({ kind: 'peaks', spectrum, rows }, doubts(rows, range));
  },
};

function peaksIn(
  of: Density,
  level: Float64Array,
  { channel, unit, segmentSamples }: SpectrumEntry,
  run: string,
  spectrum: SpectrumValue,
  range: Band | undefined,
  count: number,
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
function meanPeaks(spectrum: SpectrumValue, range: Band | undefined, count: number): PeakRow[] {
  return spectrum.means.flatMap((mean) => {
    const entries = spectrum.entries.filter(({ channel }) => channel.name === mean.channel);
    if (entries.length < 2) return [];
    const bins = mean.level.length;
    const density = new Float64Array(bins);
    for (const entry of entries) for (let k = 0; k < bins; k++) density[k] += entry.density[k] / entries.length;
    const all = entries.reduce((sum, { averages }) => sum + averages, 0);
    const of = { ...densityOf(entries[0]), density, step: mean.spacing, averages: all };
    return peaksIn(of, mean.level, entries[0], 'mean', spectrum, range, count);
  });
}

function doubts(rows: readonly PeakRow[], range: Band | undefined): Warning[] {
  if (rows.length > 0) return [];
  const where = range === undefined ? '' : ` between ${hertz(range.from)} and ${hertz(range.to)}`;
  return [
    {
      code: 'peaks.none',
      message: `Nothing stands out of the confidence band${where}: a longer stretch gives more averages, and so a narrower band.`,
    },
  ];
}
