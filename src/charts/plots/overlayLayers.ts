import type { LevelScale } from '../levelScale.ts';
import type { Reads } from '../reads.ts';
import { capitalised } from '../../result/words.ts';
import { binsToDraw } from '../decimate.ts';
import { bySeries } from '../legends.ts';
import { brokenLine, curvesOf, layerOf, markRule, strips, stripsAround, writtenFrom } from '../marks.ts';
import { drawn } from '../../values/number.ts';
import { runQuantiles } from '../../values/runQuantiles.ts';
import { crowdedShares, endsOf, isCrowded, placeOn, type Curve, type SpectrumSeries } from '../series.ts';
import { role } from '../specification.ts';
import { bandLayers, labelLayers } from './bandLayers.ts';
import { overlayAxes, type Overlay } from './overlay.ts';
import { visibleMarks } from './overlayLabels.ts';
import { profileCurve } from './profile.ts';

/** Places that answer the pointer. */
const stripCount = 200;

/** Layers from back to front. */
export function overlayLayers(overlay: Overlay): object[] {
  const { series, options, x } = overlay;
  const axes = overlayAxes(overlay);
  const { color, strokeDash } = bySeries(
    series.map(({ label }) => label),
    'line',
  );
  const limits = series.flatMap((one) => (isCrowded(one) ? quantileRows(one, overlay) : limitRows(one, overlay)));
  const runs = series.flatMap((one) => (one.entries.length > 1 && !isCrowded(one) ? runRows(one, overlay) : []));
  const means = series.flatMap(({ label, strong }) =>
    strong === undefined ? [] : [{ ...curveRow(label, strong, overlay), reads: readsOf(label, overlay) }],
  );
  const marks = visibleMarks(options, x).map(({ at }) => ({ f: drawn(at) }));
  const area = { ...brokenLine, type: 'area', opacity: role('band') };
  const thin = { ...brokenLine, strokeWidth: 1, opacity: role('thin') };
  const strong = { ...brokenLine, strokeWidth: role('strong') };
  return [
    ...bandLayers(options, x, axes.x),
    curvesOf(limits, ['f', 'v', 'v2'], area, { ...axes, y2: { field: 'v2' }, color, detail: { field: 'run' } }),
    curvesOf(runs, ['f', 'v'], thin, { ...axes, color, detail: { field: 'run' } }),
    curvesOf(means, ['f', 'v'], strong, { ...axes, color, strokeDash }),
    ...profileLayers(overlay, axes),
    ...(marks.length === 0 ? [] : [layerOf(marks, markRule, { x: axes.x })]),
    ...labelLayers(options, x),
    strips(stripRows(overlay), axes.x, 'f2'),
  ];
}

interface Row {
  readonly series: string;
  readonly run?: string;
  readonly f: (number | null)[];
  readonly v: (number | null)[];
  readonly v2?: (number | null)[];
  readonly reads?: Reads;
}

const positive = (value: number): number | null => (value > 0 ? drawn(value) : null);

/** How the curve of a series is read; of several runs without a mean each by itself. */
function readsOf(label: string, { form, scale: { unit, factor } }: Overlay): Reads {
  return { label, unit, times: form === 'psd' ? 10 : 20, ...(factor === undefined ? {} : { factor }) };
}

function curveRow(series: string, curve: Curve, { x, options }: Overlay, run?: string): Row {
  const bins = binsToDraw(curve.level, curve.spacing, x.from, x.to, options.frequency);
  return {
    series,
    ...(run === undefined ? {} : { run }),
    f: bins.map((bin) => drawn(bin * curve.spacing)),
    v: bins.map((bin) => positive(curve.level[bin])),
  };
}

const runRows = ({ label, strong, entries }: SpectrumSeries, overlay: Overlay): Row[] =>
  entries.map((entry) => ({
    ...curveRow(label, entry, overlay, entry.run.label),
    ...(strong === undefined ? { reads: readsOf(`${label}, ${entry.run.label}`, overlay) } : {}),
  }));

function limitRows({ label, strong }: SpectrumSeries, { x, y, options }: Overlay): Row[] {
  if (strong === undefined || strong.low.length !== strong.level.length) return [];
  const bins = binsToDraw(strong.level, strong.spacing, x.from, x.to, options.frequency);
  const upper = bins.map((bin) => positive(strong.high[bin]));
  // A lower limit of zero goes to the axis' foot: the band is open below, not missing.
  const lower = bins.map((bin, index) => (upper[index] === null ? null : drawn(Math.max(strong.low[bin], y.from))));
  return [{ series: label, f: bins.map((bin) => drawn(bin * strong.spacing)), v: lower, v2: upper }];
}

/** Bands that hold the middle shares of the runs, bin by bin. */
function quantileRows({ label, strong, entries }: SpectrumSeries, { x, y, options }: Overlay): Row[] {
  if (strong === undefined) return [];
  const bins = binsToDraw(strong.level, strong.spacing, x.from, x.to, options.frequency);
  const levels = entries.map(({ level }) => level);
  const f = bins.map((bin) => drawn(bin * strong.spacing));
  return crowdedShares.map((share) => {
    const found = runQuantiles(levels, bins, endsOf(share));
    const v2 = found.map(([, high]) => positive(high));
    const v = found.map(([low], index) => (v2[index] === null ? null : drawn(Math.max(low, y.from))));
    return { series: label, run: `middle ${share}`, f, v, v2 };
  });
}

/** Profiles as dashed lines in the text's colour, each with its name at its last point. */
function profileLayers({ options, unit, x }: Overlay, axes: { x: object; y: object }): object[] {
  const shown = options.profiles
    .filter(({ value }) => value.unit.symbol === unit)
    .map(({ name = 'profile', value: { points } }) => ({ name, points }));
  if (shown.length === 0) return [];
  const curves = shown.map(({ name, points }) => ({ name, ...profileCurve(points) }));
  const ends = shown.map(({ name, points }) => {
    const inside = points.filter(({ frequency }) => frequency >= x.from && frequency <= x.to);
    const last = inside.at(-1) ?? points[0];
    return { name, f: drawn(last.frequency), v: drawn(last.density) };
  });
  const color = role('ink');
  const dashed = { type: 'line', clip: true, strokeDash: [8, 4], strokeWidth: 1.6, color };
  return [
    curvesOf(curves, ['f', 'v'], dashed, { ...axes, detail: { field: 'name' } }),
    layerOf(ends, { type: 'text', align: 'right', dy: -12, color }, { ...axes, ...writtenFrom('name') }),
  ];
}

/** The values of all series at so many places. */
function stripRows({ series, x, options: { frequency }, scale, across }: Overlay): ReturnType<typeof stripsAround> {
  const guide = series[0].strong ?? series[0].entries[0];
  const bins = binsToDraw(guide.level, guide.spacing, x.from, x.to, frequency, stripCount);
  return stripsAround(
    bins.map((bin) => bin * guide.spacing),
    x,
    frequency,
    (f) => [
      { text: capitalised(placeOn(across, f)) },
      ...series.map((one) => ({ series: one.label, text: says(one, f, scale) })),
    ],
  );
}

function says({ label, strong, entries }: SpectrumSeries, f: number, { unit, write }: LevelScale): string {
  const curves = strong === undefined ? entries : [strong];
  const bin = strong === undefined ? 0 : Math.round(f / strong.spacing);
  const limits = strong === undefined ? '' : ` (${write(strong.low[bin], 3)} to ${write(strong.high[bin], 3)})`;
  const figures = curves.map((curve) => write(curve.level[Math.round(f / curve.spacing)], 3));
  return `${label}: ${figures.join(', ')} ${unit}${limits}`;
}
