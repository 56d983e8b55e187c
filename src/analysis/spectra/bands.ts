import { answered, success, type Answer, type Refused, type Result, type Warning } from '../../result/result.ts';
import { bandRms } from '../../signal/band.ts';
import type { Band } from '../../values/band.ts';
import type { BandRow, BandsValue } from '../../values/bands.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import { refuse, tell } from '../messages/spectra.ts';
import { densityOf, halfRate, isPast, whyBelowCut, type SpectrumReach } from './density.ts';
import { fractionalBands, narrowWarnings, unlessNarrow, type OctaveFraction } from './octaves.ts';
import { whyNoFrequencies } from './orderAxis.ts';

/** A band narrower than so many bins gets a warning (engineering choice). */
const fewBins = 4;

/**
 * The r.m.s. of each entry of a spectrum in each band, in the channel's unit. Refuses a spectrum over orders and bands
 * that reach past half a run's rate; a fraction of an octave refuses ranges that begin at 0 Hz too.
 * @param fraction parts the ranges into bands of an octave or a part of one; without it they are the bands
 * @param ranges in Hz
 */
export function bandLevels(
  spectrum: SpectrumValue,
  fraction: OctaveFraction | undefined,
  ranges: readonly Band[],
): Answer<BandsValue> {
  const refusal = whyNoFrequencies(spectrum, 'spectrum');
  if (refusal !== undefined) return refusal;
  const { entries, set } = spectrum;
  const found =
    fraction === undefined
      ? bandsWithin(ranges, entries, 'bands')
      : fractionalBands(fraction, ranges, entries, 'bands');
  if (!found.ok) return found;
  const bands = found.value;
  const rows = entries.flatMap((entry) =>
    bands.map((band) => bandRow(entry, band)).map((row) => (fraction === undefined ? row : unlessNarrow(row, entry))),
  );
  const warnings = fraction === undefined ? bandWarnings(spectrum, bands) : narrowWarnings(entries, bands);
  return answered({ kind: 'bands', set, bands, rows }, warnings);
}

/**
 * The bands as they are, refused where one reaches past half the rate of one of these spectra.
 * @param bands in Hz
 * @param at the operand or option that is to blame
 */
export function bandsWithin(
  bands: readonly Band[],
  spectra: readonly SpectrumReach[],
  at: string,
): Result<readonly Band[]> {
  for (const band of bands) {
    const refusal = whyOutside(band, spectra, at);
    if (refusal !== undefined) return refusal;
  }
  return success(bands);
}

/**
 * Why a band can't be taken of all these spectra, where it reaches past half the rate of one or below its cut; otherwise undefined.
 * @param at the operand or option that is to blame
 */
export function whyOutside({ from, to }: Band, spectra: readonly SpectrumReach[], at: string): Refused | undefined {
  const short = spectra.find((one) => isPast(to, one));
  if (short !== undefined) return refuse('band.outside', { from, to, run: short.run.label, half: halfRate(short) }, at);
  return whyBelowCut({ from, to }, spectra, at);
}

/** The r.m.s. of an entry in a band, in the channel's unit. */
export function bandRow(entry: SpectrumEntry, band: Band): BandRow {
  const { run, channel } = entry;
  const rms = bandRms(densityOf(entry), band.from, Math.min(band.to, halfRate(entry)));
  return { run, channel, band, unit: channel.unit, rms };
}

/** What must be known of each of the bands in Hz before its figure is trusted: that it covers only a few bins. */
export function bandWarnings({ entries }: SpectrumValue, bands: readonly Band[]): Warning[] {
  return bands.flatMap(({ from, to }) => {
    const narrow = entries.find(({ spacing }) => to - from < fewBins * spacing);
    return narrow === undefined ? [] : [tell('band.narrow', { from, to, spacing: narrow.spacing })];
  });
}
