import { success, type Result, type Warning } from '../../result/result.ts';
import { wholeOctaveBands } from '../../signal/octave.ts';
import { formatNumber } from '../../units/format.ts';
import type { Band } from '../../values/band.ts';
import type { BandRow } from '../../values/bands.ts';
import type { SpectrumEntry } from '../../values/spectrum.ts';
import { refuse, tell } from '../messages/spectra.ts';
import { halfRate, isPast, whyBelowCut, type SpectrumReach } from './density.ts';

/** Parts of an octave, and how many bands there are in one. */
const bandsAnOctave = {
  octave: 1,
  'third-octave': 3,
  'sixth-octave': 6,
  'twelfth-octave': 12,
  'twentyfourth-octave': 24,
} as const;

export type OctaveFraction = keyof typeof bandsAnOctave;

/** The parts of an octave that bands are offered in, the widest first. */
export const octaveFractions = Object.keys(bandsAnOctave) as readonly OctaveFraction[];

/** Bins that a band must hold for its level to mean anything (engineering choice). */
const fewestBins = 4;

/**
 * The bands of a part of an octave over ranges of frequency (IEC 61260-1:2014), each once, called by its nominal
 * frequency. Refuses ranges that begin at 0 Hz or hold no whole band, and bands that reach past half the rate of one of these spectra.
 * @param ranges in Hz
 * @param at the operand or option that is to blame
 */
export function fractionalBands(
  fraction: OctaveFraction,
  ranges: readonly Band[],
  spectra: readonly SpectrumReach[],
  at: string,
): Result<readonly Band[]> {
  const bands = new Map<string, Band>();
  for (const { from: low, to: high } of ranges) {
    if (!(low > 0)) return refuse('band.zero', { low }, at);
    const within = wholeOctaveBands(bandsAnOctave[fraction], low, high);
    if (within.length === 0) return refuse('band.none', { from: low, to: high, fraction }, at);
    for (const { low: from, high: to, nominal } of within) {
      const label = formatNumber(nominal, 4);
      const short = spectra.find((one) => isPast(to, one));
      if (short !== undefined) {
        const octave = { fraction, label };
        return refuse('band.outside', { from, to, run: short.run.label, half: halfRate(short), octave }, at);
      }
      const below = whyBelowCut({ from, to }, spectra, at);
      if (below !== undefined) return below;
      bands.set(label, { from, to, label });
    }
  }
  return success([...bands.values()]);
}

const isNarrow = ({ from, to }: Band, { spacing }: SpectrumEntry): boolean => to - from < fewestBins * spacing;

/** The row, with NaN for its r.m.s. where its band holds too few bins of the entry to have one. */
export const unlessNarrow = (row: BandRow, entry: SpectrumEntry): BandRow =>
  isNarrow(row.band, entry) ? { ...row, rms: NaN } : row;

/** Which bands, in Hz, have no figure in the coarsest of these spectra, and what window would give them one. */
export function narrowWarnings(spectra: readonly SpectrumEntry[], bands: readonly Band[]): Warning[] {
  const coarsest = spectra.reduce((most, one) => (one.spacing > most.spacing ? one : most));
  const narrow = bands.filter((band) => isNarrow(band, coarsest));
  if (narrow.length === 0) return [];
  const narrowest = Math.min(...narrow.map(({ from, to }) => to - from));
  return [
    tell('band.few-bins', {
      count: narrow.length,
      first: narrow[0].label ?? '',
      last: narrow[narrow.length - 1].label ?? '',
      fewest: fewestBins,
      spacing: coarsest.spacing,
      window: Math.ceil(fewestBins / narrowest),
    }),
  ];
}
