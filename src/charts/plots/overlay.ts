import { levelScaleOf, type LevelScale } from '../levelScale.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { frequencyAxis, frequencyRange, logDomain, withHeadroom, type Domain } from '../axes.ts';
import { tall } from '../layout.ts';
import {
  acrossOf,
  lowCutOf,
  spectrumQuantity,
  spectrumSeries,
  type Across,
  type NamedSpectrum,
  type SpectrumSeries,
} from '../series.ts';
import { labelRoom } from './overlayLabels.ts';
import { bareOverlay, type OverlayOptions } from './overlayOptions.ts';

/** One picture of spectra over each other. All in one unit and form: the caller groups them. */
export interface Overlay {
  readonly series: readonly SpectrumSeries[];
  readonly form: SpectrumValue['form'];
  readonly quantity: string;
  readonly across: Across;
  readonly unit: string;
  readonly scale: LevelScale;
  readonly x: Domain;
  readonly y: Domain;
  readonly options: OverlayOptions;
}

/** px */
export const overlayHeight = 300;

/** The overlay's data; undefined when no spectrum has a level above zero to show. */
export function overlayOf(spectra: readonly NamedSpectrum[], asked: OverlayOptions): Overlay | undefined {
  const series = spectrumSeries(spectra);
  const entries = series.flatMap((one) => one.entries);
  if (entries.length === 0) return undefined;
  const [{ value }] = spectra;
  const across = acrossOf(value);
  // Bands, marks and profiles are in Hz, and have no place where frequencies were divided by a speed.
  const { frequency, level } = asked;
  const options = across.hertz ? asked : { ...bareOverlay, frequency, ...(level === undefined ? {} : { level }) };
  const x = seriesRange(series, options);
  const unit = entries[0].unit.symbol;
  const bare = logDomain([...levelsIn(series, x), ...profileLevels(options, unit)]);
  if (bare === undefined) return undefined;
  const y = withHeadroom(bare, labelRoom(options, x), tall(overlayHeight));
  const quantity = spectrumQuantity(entries[0], value.form);
  // Per hertz and per metre stand in the unit; an order has none.
  const per = across.name === 'order' && value.form === 'psd' ? ' per order' : '';
  return {
    series,
    form: value.form,
    quantity: `${quantity}${per}`,
    across,
    unit,
    scale: levelScaleOf(entries[0].unit, level),
    x,
    y,
    options,
  };
}

/** The frequencies of series as far as they are asked for. */
function seriesRange(series: readonly SpectrumSeries[], options: OverlayOptions): Domain {
  const entries = series.flatMap((one) => one.entries);
  const lowest = Math.min(...entries.map(({ spacing }) => spacing));
  const highest = Math.max(...entries.map(({ spacing, level }) => spacing * (level.length - 1)));
  return frequencyRange(lowest, highest, options, lowCutOf(entries));
}

/** Its axes, of the fields `f` and `v`. */
export const overlayAxes = ({ x, y, options, across, quantity, scale }: Overlay): { x: object; y: object } => ({
  x: frequencyAxis(x, options.frequency, across.title),
  y: scale.logarithmic(quantity, y),
});

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
