import { counted, capitalised, listed } from '../../result/words.ts';
import { bandName, distinct, windowWords } from './names.ts';
import { hertz, percent, plain, significant } from '../../values/number.ts';
import {
  acrossOf,
  crowdedShares,
  highestBin,
  isCrowded,
  placeOn,
  type NamedSpectrum,
  type SpectrumSeries,
} from '../series.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import type { Overlay } from '../plots/overlay.ts';
import { logOf } from '../../numbers/logarithm.ts';

export function overlayTitle({ quantity, series }: Overlay): string {
  const channels = distinct(series.map(({ channel }) => channel));
  const sets = distinct(series.map(({ set }) => set));
  return `${capitalised(quantity)} of ${listed(sets)}, ${channels.length === 1 ? 'channel' : 'channels'} ${listed(channels)}`;
}

/** Window, averages, spacing and confidence: what one must know to read or repeat the figure. */
export function overlaySettings(spectra: readonly NamedSpectrum[], overlay: Overlay): string {
  const parts = distinct(spectra.map(({ value }) => settingsOf(value)));
  const confidence = distinct(spectra.map(({ value }) => percent(value.confidence))).join(' and ');
  return `${capitalised(parts.join(' / '))}. ${capitalised(lineWords(overlay, confidence))}.${belowWords(overlay)}`;
}

/** What the lines and bands are. */
function lineWords({ series }: Overlay, confidence: string): string {
  const several = series.filter(({ entries }) => entries.length > 1);
  const crowded = series.filter(isCrowded);
  const runs = distinct(crowded.map(({ entries }) => plain(entries.length)));
  const shares = listed([...crowdedShares].reverse().map(percent));
  return [
    ...(several.length > 0 ? ['strong line: power mean of the runs'] : []),
    ...(several.length > crowded.length ? ['thin: each run'] : []),
    ...(crowded.length > 0 ? [`bands of ${listed(runs)} runs: the middle ${shares} of them`] : []),
    ...(crowded.length < series.length ? [`band: ${confidence} limits of the estimate`] : []),
  ].join('; ');
}

/** Curves so far below the others that the axis does not reach them are named, or one would look for them. */
function belowWords({ series, x, y }: Overlay): string {
  const below = series.filter(({ entries, strong }) =>
    [...entries, ...(strong === undefined ? [] : [strong])].every((curve) => {
      const bin = highestBin(curve, x.from, x.to);
      return bin === undefined || curve.level[bin] < y.from;
    }),
  );
  return below.length === 0 ? '' : ` Below the picture: ${listed(below.map(({ label }) => label))}.`;
}

function settingsOf(value: SpectrumValue): string {
  const { window, entries } = value;
  const across = acrossOf(value);
  const range = (of: (entry: SpectrumEntry) => number, digits: number): string => {
    const figures = entries.map(of);
    return distinct([Math.min(...figures), Math.max(...figures)].map((figure) => plain(figure, digits))).join(' to ');
  };
  const by = across.by === undefined ? '' : `; frequency divided by ${across.by}`;
  return [
    `${windowWords(window)}; bins ${range((entry) => entry.spacing, 4)}${across.step} apart`,
    ` noise bandwidth ${range((entry) => entry.noiseBandwidth, 4)}${across.step}; ${range((entry) => entry.segments, 6)} segments a run`,
    ` worth ${range((entry) => entry.averages, 3)} averages${by}`,
  ].join(',');
}

export function overlayDescription(overlay: Overlay): string {
  const { series, x, options, across } = overlay;
  const sentences = [
    `${capitalised(overlay.quantity)} against ${across.name} from ${placeOn(across, x.from)} to ${placeOn(across, x.to)}, ${overlay.scale.words}, ${across.name} on a ${options.frequency} axis.`,
    ...series.map((one) => peakSentence(one, overlay)),
    ...ratioSentence(overlay),
    ...(options.bands.length === 0 ? [] : [`Shaded: ${listed(options.bands.map(bandName))}.`]),
    ...options.marks.map(({ at, label }) => `Marked at ${hertz(at)}: ${label}.`),
    ...zeroSentence(overlay),
  ];
  return sentences.join(' ');
}

function peakSentence(one: SpectrumSeries, { x, scale, across }: Overlay): string {
  const peaks = (one.strong === undefined ? one.entries : [one.strong]).map((curve) => {
    const bin = highestBin(curve, x.from, x.to);
    return bin === undefined
      ? 'nothing in range'
      : `${scale.write(curve.level[bin], 3)} ${scale.unit} at ${placeOn(across, bin * curve.spacing)}`;
  });
  return `${one.label}: highest ${listed(peaks)}.`;
}

/** Where two means differ most, among the bins within 30 dB of the highest. */
function ratioSentence({ series, x, across }: Overlay): string[] {
  if (series.length !== 2) return [];
  const [a, b] = series.map(({ strong }) => strong);
  if (a === undefined || b === undefined || Math.abs(a.spacing / b.spacing - 1) > 1e-6) return [];
  const top = highestBin(a, x.from, x.to);
  if (top === undefined) return [];
  let best: number | undefined;
  const distance = (bin: number): number => Math.abs(logOf(b.level[bin] / a.level[bin]));
  const last = Math.min(a.level.length, b.level.length) - 1;
  for (
    let bin = Math.max(1, Math.ceil(x.from / a.spacing));
    bin <= Math.min(last, Math.floor(x.to / a.spacing));
    bin++
  ) {
    if (Math.max(a.level[bin], b.level[bin]) < a.level[top] / 1000 || !Number.isFinite(distance(bin))) continue;
    if (best === undefined || distance(bin) > distance(best)) best = bin;
  }
  if (best === undefined) return [];
  const channels = new Set(series.map(({ channel }) => channel));
  const ratio = significant(b.level[best] / a.level[best], 2);
  const where = placeOn(across, best * a.spacing);
  const [first, second] = series.map(({ set, channel }) => (channels.size > 1 ? `${set} ${channel}` : set));
  return [`They differ most at ${where}, where the level of ${second} is ${ratio} times that of ${first}.`];
}

/** Levels that a log axis can't show are counted, not hidden. */
function zeroSentence({ series, x }: Overlay): string[] {
  let zeros = 0;
  for (const { spacing, level } of series.flatMap((one) => one.entries)) {
    const last = Math.min(level.length - 1, Math.floor(x.to / spacing + 1e-9));
    for (let bin = Math.max(1, Math.ceil(x.from / spacing - 1e-9)); bin <= last; bin++) if (!(level[bin] > 0)) zeros++;
  }
  return zeros === 0
    ? []
    : [
        `${counted(zeros, 'bin')} ${zeros === 1 ? 'is zero and has' : 'are zero and have'} no place on the log axis: the lines break there.`,
      ];
}
