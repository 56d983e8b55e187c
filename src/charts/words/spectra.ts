import type { LevelWords } from './levels.ts';
import { capitalised, listed } from '../../result/words.ts';
import type { PeakRow, PeaksValue } from '../../values/peaks.ts';
import type { ProfileValue } from '../../values/profile.ts';
import type { SpectrogramEntry } from '../../values/spectrogram.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import type { WindowValue } from '../../values/window.ts';
import { hertz, hertzSpan, plain, significant, printedUnit } from '../../values/number.ts';
import type { Domain } from '../axes.ts';
import { distinct, quantityName, windowWords } from './names.ts';
import { placeOn, setName, spectrumQuantity, type Across } from '../series.ts';

// What is said of spectra, their peaks, profiles and spectrograms.

/** Over the table of how a spectrum was made. */
export const spectrumCaption = (name: string | undefined, value: SpectrumValue): string =>
  `${setName({ name, value })}: ${spectrumQuantity(value.entries[0], value.form)}, ${windowWords(value.window)}`;

/** In the place of pictures that have nothing to show. */
export const emptySpectrum = 'No bin lies above zero: there is nothing to draw on an axis of powers of ten.';
export const emptySpectrogram = 'No level lies above zero: there is nothing to draw.';

/** Of a cumulative r.m.s. */
export const cumulativeTitle = (sets: readonly string[]): string => `Cumulative r.m.s. of ${listed(distinct(sets))}`;

export const cumulativeSubtitle = (across: Across): string =>
  `R.m.s. of everything from the lowest bin up to each ${across.hertz ? 'frequency' : 'place'}.`;

/** @param curves the whole r.m.s. of each, and where half of its mean square is reached */
export function cumulativeDescription(
  quantity: string,
  unit: string,
  across: Across,
  curves: readonly { readonly label: string; readonly total: number; readonly halfAt: number }[],
): string {
  const halves = curves.map(
    ({ label, total, halfAt }) =>
      `${label}: ${significant(total, 3)} ${printedUnit(unit)} in all, half of its mean square below ${placeOn(across, halfAt)}.`,
  );
  return `${capitalised(quantity)} cumulated over ${across.name}. ${halves.join(' ')}`;
}

/** What stands as a line in the table of peaks may be more. @param width in Hz */
export const lineWords = (width: number): string =>
  `Shape “line”: a line, or a resonance narrower than ${hertz(Number(width.toPrecision(2)))}. One resolution does not tell them apart; a longer window may.`;

/** Of peaks. */
export const noPeaks = 'No line stands out of the confidence band of its surroundings.';

export const peaksCaption = (name: string | undefined, value: SpectrumValue): string =>
  `Peaks of ${setName({ name, value })}; a dash where the bins are too wide to tell`;

export const peaksTitle = (name: string | undefined, { spectrum }: PeaksValue, rows: readonly PeakRow[]): string =>
  `Peaks of ${setName({ name, value: spectrum })}, channel ${listed(distinct(rows.map(({ channel }) => channel)))}`;

/** @param areOfBoth whether peaks of the mean and of single runs are marked */
export const peaksSubtitle = (quantity: string, areOfBoth: boolean): string =>
  `${capitalised(quantity)}; marked are lines that stand out of the confidence band of their surroundings${areOfBoth ? ', of the mean large and of single runs small' : ''}.`;

export function peaksDescription(
  rows: readonly PeakRow[],
  {
    quantity,
    x,
    scale,
    across,
  }: { readonly quantity: string; readonly x: Domain; readonly scale: LevelWords; readonly across: Across },
): string {
  const lines = rows.map(({ run, channel, frequency, level, width }) => {
    const sharp = width === undefined ? '' : `, ${placeOn(across, Number(width.toPrecision(2)))} wide at half power`;
    return `${run} ${channel}: ${placeOn(across, frequency)}, ${scale.write(level, 3)} ${scale.unit}${sharp}.`;
  });
  return `${capitalised(quantity)} from ${placeOn(across, x.from)} to ${placeOn(across, x.to)} with its peaks. ${lines.join(' ')}`;
}

/** Of profiles. @param names none where none has one */
export const profileTitle = ({ rmsUnit }: ProfileValue, names: readonly string[]): string =>
  `${capitalised(profileQuantity({ rmsUnit }))} profile${names.length === 0 ? '' : `: ${listed(names)}`}`;

export const profileQuantity = ({ rmsUnit }: Pick<ProfileValue, 'rmsUnit'>): string =>
  `${quantityName(rmsUnit.dimension)} spectral density`;

export const profileName = (name: string | undefined, index: number): string => name ?? `profile ${index + 1}`;

export function profileSentence(name: string, { points, rms, rmsUnit }: ProfileValue): string {
  const frequencies = points.map(({ frequency }) => frequency);
  return `${name}: ${points.length} breakpoints over ${hertzSpan(Math.min(...frequencies), Math.max(...frequencies))}, ${significant(rms, 3)} ${printedUnit(rmsUnit.symbol)} r.m.s. in all.`;
}

export const profileCaption = (name: string | undefined, { rms, rmsUnit }: ProfileValue): string =>
  `${name === undefined ? 'Profile' : `Profile ${name}`}: ${significant(rms)} ${printedUnit(rmsUnit.symbol)} r.m.s.`;

export const againstCaption = 'Against the profile, over its range; positive is above it';

/** Of a spectrogram. */
export const spectrogramTitle = ({ run, channel }: SpectrogramEntry, quantity: string): string =>
  `${capitalised(quantity)} over time: ${run.label}, channel ${channel.name}`;

/** @param isShared whether one colour is the same level in several pictures */
export function spectrogramSubtitle(
  { perColumn = 1 }: SpectrogramEntry,
  window: WindowValue,
  isShared: boolean,
): string {
  const averaged = perColumn > 1 ? `Each column is the mean of ${perColumn} segments. ` : '';
  return `${capitalised(windowWords(window))}. ${averaged}Each cell shows the highest level in it.${isShared ? ' One colour scale for all runs.' : ''}`;
}

/** @param top the highest density, and where it is in Hz and s */
export const spectrogramDescription = (
  { run, channel, unit }: SpectrogramEntry,
  quantity: string,
  time: Domain,
  frequency: Domain,
  top: { readonly density: number; readonly frequency: number; readonly at: number },
): string =>
  `${capitalised(quantity)} of ${run.label}, channel ${channel.name}, from ${plain(time.from, 4)} to ${plain(time.to, 4)} s and ${hertzSpan(frequency.from, frequency.to)}. Highest: ${significant(top.density, 3)} ${printedUnit(unit.symbol)} at ${hertz(top.frequency)}, ${plain(top.at, 4)} s.`;
