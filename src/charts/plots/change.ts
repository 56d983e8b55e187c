import { textWidth } from '../axes.ts';
import { laidOut, layout, type Layout } from '../layout.ts';
import { changeDescription, changeSubtitle, changeTitle } from '../words/change.ts';
import { comparedName } from '../words/compared.ts';
import type { Band } from '../../values/band.ts';
import { hasAxes, hasConditions, sidesIn, type ComparisonValue, isOfSignal } from '../../values/comparison.ts';
import type { ComparisonSide } from '../../values/comparisonParts.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { legendRows } from '../legends.ts';
import { layered } from '../marks.ts';
import type { ChartPart } from '../output.ts';
import { chartPart } from '../specification.ts';
import { changeDomain, changeLayers, labelLimit } from './changeLayers.ts';
import { overlayOf } from './overlay.ts';
import { overlayLayers } from './overlayLayers.ts';
import type { OverlayOptions } from './overlayOptions.ts';

/** The change in each band with its interval, below the spectra it was found in. */

const separate = Object.fromEntries(
  ['color', 'shape', 'strokeDash', 'x', 'y'].map((channel) => [channel, 'independent']),
);

const rowHeight = 36;
const overlayHeight = 240;

export function comparisonChart(value: ComparisonValue, asked: OverlayOptions): ChartPart | undefined {
  const options = value.level === undefined ? asked : { level: value.level, ...asked };
  if (value.rows.length === 0) return undefined;
  return laidOut(besideNames(value), () => chartOf(value, options));
}

/** Both pictures stand to the right of the rows' names, which in print may take more than an axis does. */
function besideNames(value: ComparisonValue): Layout {
  const now = layout();
  if (!now.print) return now;
  const names = Math.max(...value.rows.map((row) => textWidth(comparedName(value, row))));
  const beside = Math.max(now.besidePlot, Math.min(names, labelLimit(value)) + besideText);
  return { ...now, besidePlot: beside, plotWidth: now.width - beside };
}

/** px; the axis' padding beside the names, and the star of the primary band. */
const besideText = 24;

function chartOf(value: ComparisonValue, options: OverlayOptions): ChartPart {
  const above = overlayAbove(value, options);
  const height = rowHeight * value.rows.length + 14;
  // Rows of text are as high as their type, whatever the layout.
  const below = layered(height, changeLayers(value, height / value.rows.length), { height });
  const overlayRoom = above === undefined ? 0 : overlayHeight + 60;
  return chartPart({
    what: 'change',
    title: changeTitle(value),
    subtitle: changeSubtitle(value, isCut(value)),
    view: {
      spacing: 18,
      resolve: { scale: separate, legend: separate },
      vconcat: above === undefined ? [below] : [above, below],
    },
    height: overlayRoom + height + 48,
    legendRows:
      above === undefined ? (hasConditions(value) ? 1 : 0) : legendRows(sidesIn(value).map(({ name }) => name)),
    description: changeDescription(value),
    ...(above === undefined ? {} : { axis: { quantity: 'frequency', sets: [0] } }),
  });
}

function overlayAbove(value: ComparisonValue, options: OverlayOptions): object | undefined {
  const sides = sidesIn(value);
  const spectra = sides.flatMap(({ spectrum }) => spectrum ?? []);
  // Several axes would lie over each other.
  if (spectra.length < sides.length || hasAxes(value)) return undefined;
  const own = (side: ComparisonSide, spectrum: SpectrumValue): { name: string; value: SpectrumValue } => ({
    name: side.name,
    value: {
      ...spectrum,
      set: side.name,
      entries: spectrum.entries.filter(({ channel }) => channel.name === value.channel),
      means: spectrum.means.filter(({ channel }) => channel === value.channel),
    },
  });
  const bands = isOfSignal(value.metricCode) ? [] : value.rows.map(({ band }) => band);
  // What lies far above the highest band has no part in the answer.
  const over = options.over ?? {
    from: 0,
    to: bands.length === 0 ? Infinity : 2 * Math.max(...bands.map(({ to }) => to)),
  };
  const named = sides.map((side, index) => own(side, spectra[index]));
  const overlay = overlayOf(named, { ...options, bands: distinctBands(bands), over });
  return overlay && layered(overlayHeight, overlayLayers(overlay));
}

const distinctBands = (bands: readonly Band[]): Band[] =>
  bands.filter(({ from, to }, index) => bands.findIndex((one) => one.from === from && one.to === to) === index);

/** Whether an interval is wider than the picture. */
function isCut({ rows, margin }: ComparisonValue): boolean {
  const { from, to } = changeDomain(rows, margin);
  return rows.some(({ lowPercent, highPercent }) => (lowPercent ?? from) < from || (highPercent ?? to) > to);
}
