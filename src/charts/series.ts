import type { SpectrumEntry, SpectrumValue } from '../values/spectrum.ts';
import { axisTitle, channelQuantity, distinct } from './words/names.ts';
import { counted, listed } from '../result/words.ts';
import { plain } from '../values/number.ts';

/** The curves of one or more spectra, as an overlay shows them: a series is a set's channel. */

export interface Curve {
  readonly spacing: number;
  readonly level: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
}

export interface SpectrumSeries {
  /** In legends: the set, its channel where several are shown, and the number of runs. */
  readonly label: string;
  readonly set: string;
  readonly channel: string;
  readonly entries: readonly SpectrumEntry[];
  /** The strong line: the mean over runs, or the only run; undefined where the runs share no frequency axis. */
  readonly strong: Curve | undefined;
}

/** More curves or dots than so many are none any more, but a grey patch. */
export const mostDrawn = 100;

/** Whether a set's runs are drawn as bands that hold shares of them, with the mean on top. */
export const isCrowded = ({ entries, strong }: SpectrumSeries): boolean =>
  entries.length > mostDrawn && strong !== undefined;

/** The shares of runs that the bands of a crowded set hold, the wider first. */
export const crowdedShares = [0.9, 0.5];

/** Of such a share the quantiles at its ends. */
export const endsOf = (share: number): readonly [number, number] => [(1 - share) / 2, (1 + share) / 2];

export interface NamedSpectrum {
  readonly name: string | undefined;
  readonly value: SpectrumValue;
}

/** What a set is called: its label, the name it was bound to, else its runs or how many they are. */
export function setName({
  name,
  value,
}: {
  readonly name: string | undefined;
  readonly value: {
    readonly set: string | undefined;
    readonly entries?: readonly OfRun[];
    readonly rows?: readonly OfRun[];
  };
}): string {
  const called = value.set ?? name;
  if (called !== undefined) return called;
  const runs = distinct((value.entries ?? value.rows ?? []).map(({ run }) => run.label));
  return runs.length <= 2 ? listed(runs) : counted(runs.length, 'run');
}

interface OfRun {
  readonly run: { readonly label: string };
}

/** One series per set and channel, in order of appearance. */
export function spectrumSeries(spectra: readonly NamedSpectrum[]): SpectrumSeries[] {
  const channels = distinct(spectra.flatMap(({ value }) => value.entries.map((entry) => entry.channel.name)));
  const sets = distinguished(spectra);
  return spectra.flatMap(({ value }, index) =>
    distinct(value.entries.map((entry) => entry.channel.name)).map((channel) => {
      const entries = value.entries.filter((entry) => entry.channel.name === channel);
      const mean = value.means.find((candidate) => candidate.channel === channel);
      const set =
        entries.length === 1 && value.set === undefined && spectra.length === 1 ? entries[0].run.label : sets[index];
      const runs = entries.length > 1 ? `${mean === undefined ? '' : 'mean of '}${entries.length} runs` : '';
      // A set that is called by the number of its runs need not be told their number again.
      const called = set === counted(entries.length, 'run') ? '' : set;
      const named = `${called}${channels.length > 1 ? ` ${channel}` : ''}`.trim();
      return {
        label: [named, runs].filter((part) => part !== '').join(', '),
        set,
        channel,
        entries,
        strong: entries.length === 1 ? entries[0] : mean,
      };
    }),
  );
}

/** The sets' names, made different where two are called the same. */
function distinguished(spectra: readonly NamedSpectrum[]): string[] {
  const names = spectra.map(setName);
  return names.map((name, index) => {
    if (names.filter((other) => other === name).length === 1) return name;
    const own = spectra[index].name;
    const ordinal = names.slice(0, index + 1).filter((other) => other === name).length;
    return own !== undefined && own !== name ? `${name} (${own})` : ordinal === 1 ? name : `${name} (${ordinal})`;
  });
}

/** What a spectrum is over: frequency, or what `orders` divided it into. */
export interface Across {
  readonly name: string;
  /** Of the axis. */
  readonly title: string;
  readonly unit: string;
  /** After the figure of a distance along it, with the blank: ` Hz`, ` cycles/m`, ` orders`. */
  readonly step: string;
  /** Whether places on it are in Hz, as bands and marks are. */
  readonly hertz: boolean;
  /** The speed or rate it was divided by, in words. */
  readonly by: string | undefined;
}

export function acrossOf({ axis }: SpectrumValue): Across {
  if (axis === undefined)
    return { name: 'frequency', title: 'Frequency (Hz)', unit: 'Hz', step: ' Hz', hertz: true, by: undefined };
  const { name, unit, by } = axis;
  const step = name === 'order' ? ' orders' : ' cycles/m';
  return { name, title: axisTitle(name, unit), unit: unit.symbol, step, hertz: false, by };
}

/** `12.5 Hz`, `0.4 cycles/m`, `order 3`. */
export const placeOn = ({ name, step }: Across, at: number, digits = 4): string =>
  name === 'order' ? `order ${plain(at, digits)}` : `${plain(at, digits)}${step}`;

/** `acceleration spectral density`, `acceleration peak amplitude`: an amplitude is the height of a sine. */
export function spectrumQuantity(entry: SpectrumEntry, form: SpectrumValue['form']): string {
  return `${channelQuantity(entry.channel)} ${form === 'psd' ? 'spectral density' : 'peak amplitude'}`;
}

/** In Hz: where what was integrated begins to mean something, and its curves begin. */
export const lowCutOf = (entries: readonly { readonly channel: { readonly lowCut?: number } }[]): number =>
  Math.max(0, ...entries.map(({ channel }) => channel.lowCut ?? 0));

/** Highest bin but the one at 0 Hz between two frequencies: its index, or undefined when none is there. */
export function highestBin(
  curve: { readonly spacing: number; readonly level: Float64Array },
  from = 0,
  to = Infinity,
): number | undefined {
  let best: number | undefined;
  const last = Math.min(curve.level.length - 1, Math.floor(to / curve.spacing + 1e-9));
  for (let bin = Math.max(1, Math.ceil(from / curve.spacing - 1e-9)); bin <= last; bin++) {
    if (best === undefined || curve.level[bin] > curve.level[best]) best = bin;
  }
  return best;
}
