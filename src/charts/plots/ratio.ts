import { ratioAxis, ratioDescription, ratioSubtitle, ratioTitle } from '../words/change.ts';
import { type ComparisonValue, isOfSignal } from '../../values/comparison.ts';
import type { DensityRatio } from '../../values/comparisonParts.ts';
import { frequencyAxis, levelAxis, withinFew, type Domain } from '../axes.ts';
import { lookedAt } from '../closer.ts';
import { binsToDraw } from '../decimate.ts';
import { tall } from '../layout.ts';
import { curvesOf, layered, layerOf, strips } from '../marks.ts';
import { drawn, hertz, interval, signed } from '../../values/number.ts';
import { lowCutOf } from '../series.ts';
import type { ChartPart } from '../output.ts';
import { belowPlot, chartPart, role } from '../specification.ts';
import type { Reads } from '../reads.ts';
import { bandLayers, labelLayers } from './bandLayers.ts';
import { labelRoom } from './overlayLabels.ts';
import { bareOverlay, type OverlayOptions } from './overlayOptions.ts';

const plotHeight = 220;

/** Change of the amplitude over frequency with its interval; undefined for a comparison that carries no ratio. */
export function ratioChart(
  value: ComparisonValue & { readonly ratio?: DensityRatio },
  asked: OverlayOptions,
): ChartPart | undefined {
  const { ratio } = value;
  if (ratio === undefined || ratio.ratio.length < 3) return undefined;
  const bands = isOfSignal(value.metricCode) ? [] : value.rows.map(({ band }) => band);
  const options: OverlayOptions = { ...bareOverlay, frequency: asked.frequency, bands };
  const over = lookedAt('frequency', asked.over);
  const top = Math.min(
    over?.to ?? 2 * Math.max(...bands.map(({ to }) => to), 0),
    ratio.spacing * (ratio.ratio.length - 1),
  );
  const cut = lowCutOf([...(value.a.spectrum?.entries ?? []), ...(value.b.spectrum?.entries ?? [])]);
  const x = {
    from: Math.max(over?.from ?? 0, asked.frequency === 'log' ? ratio.spacing : 0, cut),
    to: top > 0 ? top : ratio.spacing * (ratio.ratio.length - 1),
  };
  const bins = binsToDraw(ratio.ratio, ratio.spacing, x.from, x.to, options.frequency);
  const changes = {
    middle: changesOf(ratio.ratio, bins),
    low: changesOf(ratio.low, bins),
    high: changesOf(ratio.high, bins),
  };
  const y = withRoom(withinFew([...changes.low, ...changes.high, 0]), labelRoom(options, x));
  return chartPart({
    what: 'over-frequency',
    title: ratioTitle(value),
    subtitle: ratioSubtitle(ratio.confidence),
    view: layered(plotHeight, ratioLayers(ratio, bins, changes, options, { x, y, title: ratioAxis(value) })),
    height: plotHeight + belowPlot,
    description: ratioDescription(
      value,
      x,
      stretchesWhere(ratio, bins, (bin) => ratio.high[bin] < 1),
      stretchesWhere(ratio, bins, (bin) => ratio.low[bin] > 1),
    ),
    axis: { quantity: 'frequency' },
  });
}

interface Changes {
  readonly middle: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** Of amplitude, in percent: the root of a ratio of densities. */
const change = (ratio: number): number => 100 * (Math.sqrt(ratio) - 1);
const changesOf = (ratios: Float64Array, bins: readonly number[]): number[] => bins.map((bin) => change(ratios[bin]));

const withRoom = ({ from, to }: Domain, room: number): Domain => ({
  from,
  to: from + ((to - from) * tall(plotHeight)) / (tall(plotHeight) - room),
});

function ratioLayers(
  ratio: DensityRatio,
  bins: readonly number[],
  { low, middle, high }: Changes,
  options: OverlayOptions,
  { x, y, title }: { readonly x: Domain; readonly y: Domain; readonly title: string },
): object[] {
  const scale = { domain: [y.from, y.to], nice: false, zero: false };
  const axes = { x: frequencyAxis(x, options.frequency), y: levelAxis('v', title, scale) };
  const fields = ['f', 'v', 'v2'];
  const curve = (from: readonly number[], to: readonly number[], reads?: Reads): object[] => [
    {
      ...(reads && { reads }),
      f: bins.map((bin) => drawn(bin * ratio.spacing)),
      v: from.map(drawn),
      v2: to.map(drawn),
    },
  ];
  const area = { type: 'area', clip: true, color: role('faded'), opacity: 0.35 };
  const line = { type: 'line', clip: true, color: role('ink'), strokeWidth: role('strong') };
  return [
    ...bandLayers(options, x, axes.x),
    curvesOf(curve(low, high), fields, area, { ...axes, y2: { field: 'v2' } }),
    layerOf([{ v: 0 }], { type: 'rule', strokeWidth: 1.2, color: role('ink') }, { y: axes.y }),
    curvesOf(curve(middle, middle, { label: 'Change', unit: '%' }), fields, line, axes),
    ...labelLayers(options, x),
    strips(stripRows(ratio, bins), axes.x, 'f2', { clip: true }),
  ];
}

function stripRows({ spacing, ratio, low, high }: DensityRatio, bins: readonly number[]): { readonly says: string }[] {
  const every = Math.max(1, Math.ceil(bins.length / 200));
  return bins
    .filter((_, index) => index % every === 0)
    .map((bin) => {
      const text = interval(change(ratio[bin]), change(low[bin]), change(high[bin]));
      const says = `${hertz(bin * spacing)}\n${signed(text.value)} % (${signed(text.low)} to ${signed(text.high)})`;
      return { f: drawn((bin - 0.5) * spacing), f2: drawn((bin + every - 0.5) * spacing), says };
    });
}

/** The widest stretches of neighbouring bins, in Hz and in their order. */
function stretchesWhere(
  { spacing }: DensityRatio,
  bins: readonly number[],
  isWanted: (bin: number) => boolean,
): Domain[] {
  const found: [number, number][] = [];
  for (const bin of bins.filter(isWanted)) {
    const last = found.at(-1);
    if (last !== undefined && bin - last[1] <= 1) last[1] = bin;
    else found.push([bin, bin]);
  }
  return found
    .sort((a, b) => b[1] - b[0] - (a[1] - a[0]))
    .slice(0, 4)
    .sort((a, b) => a[0] - b[0])
    .map(([from, to]) => ({ from: (from - 0.5) * spacing, to: (to + 0.5) * spacing }));
}
