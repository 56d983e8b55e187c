import { bandName, capitalised, distinct, listed, printedUnit } from '../names.ts';
import { hertz, hertzSpan, percent, plain, significant } from '../number.ts';
import { highestBin, type NamedSpectrum, type SpectrumSeries } from '../series.ts';
import type { Domain } from '../axes.ts';
import type { Overlay } from './overlay.ts';

/** Window, averages, spacing and confidence: what one must know to read or repeat the figure. */
export function overlaySettings(spectra: readonly NamedSpectrum[], overlay: Overlay): string {
  const parts = distinct(
    spectra.map(({ value }) => {
      const entries = value.entries;
      const range = (figures: readonly number[], digits: number): string =>
        distinct([Math.min(...figures), Math.max(...figures)].map((figure) => plain(figure, digits))).join(' to ');
      return (
        `${value.window.shape} window of ${plain(value.window.length, 4)} s, overlap ${percent(value.window.overlap)}; ` +
        `bins ${range(
          entries.map((entry) => entry.spacing),
          4,
        )} Hz apart, noise bandwidth ` +
        `${range(
          entries.map((entry) => entry.noiseBandwidth),
          4,
        )} Hz; ` +
        `${range(
          entries.map((entry) => entry.segments),
          6,
        )} segments a run, worth ` +
        `${range(
          entries.map((entry) => entry.averages),
          3,
        )} averages`
      );
    }),
  );
  const confidence = distinct(spectra.map(({ value }) => percent(value.confidence))).join(' and ');
  const several = overlay.series.some(({ entries }) => entries.length > 1);
  const strong = several ? 'strong line: power mean of the runs; thin: each run; ' : '';
  return `${capitalised(parts.join(' / '))}. ${capitalised(`${strong}band: ${confidence} limits of the estimate`)}.`;
}

export function overlayDescription(overlay: Overlay): string {
  const { series, x, options, unit } = overlay;
  const sentences = [
    `${capitalised(overlay.quantity)} against frequency from ${hertzSpan(x.from, x.to)}, level on a log axis, frequency on a ${options.frequency} axis.`,
    ...series.map((one) => peakSentence(one, x, unit)),
    ...ratioSentence(series, x),
    ...(options.bands.length === 0 ? [] : [`Shaded: ${listed(options.bands.map(bandName))}.`]),
    ...options.marks.map(({ at, label }) => `Marked at ${hertz(at)}: ${label}.`),
    ...zeroSentence(overlay),
  ];
  return sentences.join(' ');
}

function peakSentence(one: SpectrumSeries, x: Domain, unit: string): string {
  const peaks = (one.strong === undefined ? one.entries : [one.strong]).map((curve) => {
    const bin = highestBin(curve, x.from, x.to);
    return bin === undefined
      ? 'nothing in range'
      : `${significant(curve.level[bin], 3)} ${printedUnit(unit)} at ${hertz(bin * curve.spacing)}`;
  });
  return `${one.label}: highest ${listed(peaks)}.`;
}

/** Where two means differ most, among the bins within 30 dB of the highest. */
function ratioSentence(series: readonly SpectrumSeries[], x: Domain): string[] {
  if (series.length !== 2) return [];
  const [a, b] = series.map(({ strong }) => strong);
  if (a === undefined || b === undefined || Math.abs(a.spacing / b.spacing - 1) > 1e-6) return [];
  const top = highestBin(a, x.from, x.to);
  if (top === undefined) return [];
  let best: number | undefined;
  const distance = (bin: number): number => Math.abs(Math.log(b.level[bin] / a.level[bin]));
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
  const ratio = significant(b.level[best] / a.level[best], 2);
  return [`They differ most at ${hertz(best * a.spacing)}, where the second is ${ratio} times the first.`];
}

/** Levels that a log axis can't show are counted, not hidden. */
function zeroSentence({ series, x }: Overlay): string[] {
  let zeros = 0;
  for (const { spacing, level } of series.flatMap((one) => one.entries)) {
    const last = Math.min(level.length - 1, Math.floor(x.to / spacing + 1e-9));
    for (let bin = Math.max(1, Math.ceil(x.from / spacing - 1e-9)); bin <= last; bin++) if (!(level[bin] > 0)) zeros++;
  }
  return zeros === 0 ? [] : [`${zeros} bins are zero and have no place on the log axis: the lines break there.`];
}
