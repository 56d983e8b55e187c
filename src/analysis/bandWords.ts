import { listed } from '../result/words.ts';
import { formatNumber } from '../units/format.ts';
import type { Band } from '../values/band.ts';

// How a band of frequencies, in Hz, is written within sentences.

/** `10 to 50 Hz`, or the nominal frequency of an octave's part: `the band of 8 Hz`. */
export const bandText = ({ from, to, label }: Band): string =>
  label === undefined ? `${formatNumber(from, 4)} to ${formatNumber(to, 4)} Hz` : `the band of ${label} Hz`;

/** Several bands in a sentence: `10 to 50 Hz and 50 to 100 Hz`. @param bands in Hz */
export const bandsText = (bands: readonly Band[]): string => listed(bands.map(bandText));

/** The band as the head of a message: `10 to 50 Hz`, `The band of 8 Hz`. */
export const bandHead = (band: Band): string =>
  band.label === undefined ? bandText(band) : `The band of ${band.label} Hz`;
