import { bandRms } from '../../signal/band.ts';
import type { Density } from '../../signal/welch.ts';
import { formatNumber } from '../../units/format.ts';
import { hertz } from '../../analysis/amounts.ts';
import { si } from '../arguments.ts';
import type { Band } from '../../values/band.ts';
import type { BandRow } from '../../values/bands.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import { refuse, type Failure } from '../../result/result.ts';
import type { Argument } from '../verb.ts';

/** The bands given as ranges of frequency, or why one of them can't be taken of these spectra. */
export function askedBands(
  given: readonly Argument[],
  spectra: readonly SpectrumEntry[],
  at: string,
): Band[] | { ok: false; failure: Failure } {
  const bands = given.flatMap((argument) =>
    argument.type === 'range' ? [{ from: si(argument.from), to: si(argument.to) }] : [],
  );
  for (const band of bands) {
    const refusal = whyOutside(band, spectra);
    if (refusal !== undefined) return refuse('band.outside', refusal, at);
  }
  return bands;
}

export function whyOutside({ from, to }: Band, spectra: readonly SpectrumEntry[]): string | undefined {
  if (!(to > from)) return `The band ${hertz(from)} to ${hertz(to)} has no width: give the lower edge first.`;
  for (const { run, spacing, segmentSamples } of spectra) {
    const half = (spacing * segmentSamples) / 2;
    if (to > half * (1 + 1e-9)) {
      return `The band ${hertz(from)} to ${hertz(to)} reaches past half the rate of ${run.label}, which is ${hertz(half)}.`;
    }
  }
  return undefined;
}

export function bandRow(entry: SpectrumEntry, band: Band): BandRow {
  const { run, channel } = entry;
  return {
    run,
    channel,
    band,
    unit: channel.unit,
    rms: bandRms(densityOf(entry), band.from, Math.min(band.to, halfRate(entry))),
  };
}

const halfRate = ({ spacing, segmentSamples }: SpectrumEntry): number => (spacing * segmentSamples) / 2;

/** The entry's density in the signal room's form. */
export function densityOf({
  density,
  spacing,
  segmentSamples,
  segments,
  averages,
  noiseBandwidth,
  run,
}: SpectrumEntry): Density {
  return { density, step: spacing, segmentLength: segmentSamples, rate: run.rate, segments, averages, noiseBandwidth };
}

/** What a reader must know of a band before trusting its figure. */
export function bandWarnings(spectrum: SpectrumValue, bands: readonly Band[]): { code: string; message: string }[] {
  return bands.flatMap((band) => {
    const narrow = spectrum.entries.find(({ spacing }) => band.to - band.from < 4 * spacing);
    if (narrow === undefined) return [];
    const bins = formatNumber((band.to - band.from) / narrow.spacing, 2);
    return [
      {
        code: 'band.narrow',
        message: `The band ${hertz(band.from)} to ${hertz(band.to)} covers only ${bins} bins of ${hertz(narrow.spacing)}: take a longer window for so narrow a band.`,
      },
    ];
  });
}
