import type { Band } from '../../values/band.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { legendRows, logDomain, withHeadroom, type Domain } from '../axes.ts';
import { capitalised, distinct, listed } from '../names.ts';
import type { NamedProfile } from './profile.ts';
import type { ChartPart } from '../output.ts';
import {
  spectrumQuantity,
  spectrumSeries,
  acrossOf,
  type Across,
  type NamedSpectrum,
  type SpectrumSeries,
} from '../series.ts';
import { chartPart, fullWidth } from '../specification.ts';
import { labelRoom } from './overlay-labels.ts';
import { overlayLayers } from './overlay-layers.ts';
import { overlayDescription, overlaySettings } from './overlay-words.ts';

/** What an overlay of spectra is to show besides the spectra. */
export interface OverlayOptions {
  readonly bands: readonly Band[];
  /** Drawn dashed where they are in the spectrum's unit. */
  readonly profiles: readonly NamedProfile[];
  readonly over?: { readonly from: number; readonly to: number };
  readonly frequency: 'linear' | 'log';
  readonly marks: readonly { readonly at: number; readonly label: string }[];
}

export const bareOverlay: OverlayOptions = { bands: [], profiles: [], frequency: 'linear', marks: [] };

/** One picture of spectra over each other. All in one unit and form: the caller groups them. */
export interface Overlay {
  readonly series: readonly SpectrumSeries[];
  readonly form: SpectrumValue['form'];
  readonly quantity: string;
  readonly across: Across;
  readonly unit: string;
  readonly x: Domain;
  readonly y: Domain;
  readonly options: OverlayOptions;
}

const plotHeight = 300;
/** Every run thin, the mean strong, its confidence band light, bands shaded and labelled; log level. */
export function overlayChart(spectra: readonly NamedSpectrum[], options: OverlayOptions): ChartPart | undefined {
  const overlay = overlayOf(spectra, options);
  if (overlay === undefined) return undefined;
  const channels = distinct(overlay.series.map(({ channel }) => channel));
  const sets = distinct(overlay.series.map(({ set }) => set));
  return chartPart({
    title: `${capitalised(overlay.quantity)} of ${listed(sets)}, ${channels.length === 1 ? 'channel' : 'channels'} ${listed(channels)}`,
    subtitle: overlaySettings(spectra, overlay),
    view: { width: fullWidth, height: plotHeight, layer: overlayLayers(overlay) },
    height: plotHeight + 46,
    legendRows: legendRows(overlay.series.map(({ label }) => label)),
    description: overlayDescription(overlay),
  });
}

/** The overlay's data; undefined when no spectrum has a level above zero to show. */
export function overlayOf(spectra: readonly NamedSpectrum[], asked: OverlayOptions): Overlay | undefined {
  const series = spectrumSeries(spectra);
  const entries = series.flatMap((one) => one.entries);
  if (entries.length === 0) return undefined;
  const [{ value }] = spectra;
  const across = acrossOf(value);
  // Bands, marks and profiles are in Hz, and have no place where frequencies were divided by a speed.
  const options = across.hertz ? asked : { ...bareOverlay, frequency: asked.frequency };
  const x = frequencyDomain(series, options);
  const unit = entries[0].unit.symbol;
  const bare = logDomain([...levelsIn(series, x), ...profileLevels(options, unit)]);
  if (bare === undefined) return undefined;
  const y = withHeadroom(bare, labelRoom(options, x), plotHeight);
  const quantity = spectrumQuantity(entries[0], value.form);
  // Per hertz and per metre stand in the unit; an order has none.
  const per = across.name === 'order' && value.form === 'psd' ? ' per order' : '';
  return { series, form: value.form, quantity: `${quantity}${per}`, across, unit, x, y, options };
}

function frequencyDomain(series: readonly SpectrumSeries[], { over, frequency }: OverlayOptions): Domain {
  const entries = series.flatMap((one) => one.entries);
  const lowest = Math.min(...entries.map(({ spacing }) => spacing));
  const highest = Math.max(...entries.map(({ spacing, level }) => spacing * (level.length - 1)));
  const from = Math.max(over?.from ?? 0, frequency === 'log' ? lowest : 0);
  const to = Math.min(over?.to ?? highest, highest);
  return from < to ? { from, to } : { from: frequency === 'log' ? lowest : 0, to: highest };
}

const profileLevels = ({ profiles }: OverlayOptions, unit: string): number[] =>
  profiles.flatMap(({ value }) => (value.unit.symbol === unit ? value.points.map(({ density }) => density) : []));

function* levelsIn(series: readonly SpectrumSeries[], x: Domain): Iterable<number> {
  for (const one of series) {
    for (const { spacing, level } of [...one.entries, ...(one.strong === undefined ? [] : [one.strong])]) {
      const last = Math.min(level.length - 1, Math.floor(x.to / spacing + 1e-9));
      for (let bin = Math.max(1, Math.ceil(x.from / spacing - 1e-9)); bin <= last; bin++) yield level[bin];
    }
  }
}
