import { octaveBands } from '../../signal/octave.ts';
import { formatNumber } from '../../units/format.ts';
import { hertz } from '../../analysis/amounts.ts';
import { si } from '../arguments.ts';
import type { Band } from '../../values/band.ts';
import type { BandRow } from '../../values/bands.ts';
import type { SpectrumEntry } from '../../values/spectrum.ts';
import { refuse, type Failure, type Warning } from '../../result/result.ts';
import type { Argument } from '../verb.ts';

/** Words for the parts of an octave, and how many there are in one. */
export const fractions: Readonly<Record<string, number>> = {
  octave: 1,
  'third-octave': 3,
  'sixth-octave': 6,
  'twelfth-octave': 12,
  'twentyfourth-octave': 24,
};

/** Bins that a band must hold for its level to mean anything (engineering choice). */
const fewestBins = 4;

/** The bands of a fraction of an octave over ranges of frequency, or why one of them can't be taken of these spectra. */
export function fractionalBands(
  word: string,
  ranges: readonly Argument[],
  spectra: readonly SpectrumEntry[],
): Band[] | { ok: false; failure: Failure } {
  const bands = new Map<string, Band>();
  for (const range of ranges) {
    if (range.type !== 'range') continue;
    const [low, high] = [si(range.from), si(range.to)];
    if (!(low > 0))
      return refuse(
        'band.zero',
        `Bands of an octave begin above 0 Hz: the lowest of the range is ${hertz(low)}.`,
        'bands',
      );
    for (const { low: from, high: to, nominal } of octaveBands(fractions[word], low, high)) {
      const label = formatNumber(nominal, 4);
      const fast = spectra.find(({ spacing, segmentSamples }) => to > ((spacing * segmentSamples) / 2) * (1 + 1e-9));
      if (fast !== undefined) {
        const half = (fast.spacing * fast.segmentSamples) / 2;
        return refuse(
          'band.outside',
          `The ${word} band of ${label} Hz reaches to ${hertz(to)}, past half the rate of ${fast.run.label}, which is ${hertz(half)}: end the range below ${hertz(from)}.`,
          'bands',
        );
      }
      bands.set(label, { from, to, label });
    }
  }
  return [...bands.values()];
}

const tooNarrow = ({ from, to }: Band, { spacing }: SpectrumEntry): boolean => to - from < fewestBins * spacing;

/** The row without its figure where the band holds too few bins to have one. */
export function unlessNarrow(row: BandRow, entry: SpectrumEntry): BandRow {
  return tooNarrow(row.band, entry) ? { ...row, rms: NaN } : row;
}

/** Which bands have no figure, and what window would give them one. */
export function narrowWarnings(spectra: readonly SpectrumEntry[], bands: readonly Band[]): Warning[] {
  const coarsest = spectra.reduce((most, one) => (one.spacing > most.spacing ? one : most));
  const narrow = bands.filter((band) => tooNarrow(band, coarsest));
  if (narrow.length === 0) return [];
  const [first, last] = [narrow[0], narrow[narrow.length - 1]];
  const which =
    narrow.length === 1
      ? `The band of ${first.label} Hz holds`
      : `${narrow.length} bands from ${first.label} to ${last.label} Hz hold`;
  const narrowest = Math.min(...narrow.map(({ from, to }) => to - from));
  return [
    {
      code: 'band.few-bins',
      message: `${which} fewer than ${fewestBins} bins of ${hertz(coarsest.spacing)}, too few for a level, and ${narrow.length === 1 ? 'is' : 'are'} left empty: a window of ${formatNumber(Math.ceil(fewestBins / narrowest))} s resolves them.`,
    },
  ];
}
