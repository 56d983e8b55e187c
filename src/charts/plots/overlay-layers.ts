import { frequencyAxis, logLevelAxis, seriesLegend } from '../axes.ts';
import { binsToDraw } from '../decimate.ts';
import { axisTitle, capitalised, printedUnit } from '../names.ts';
import { drawn, significant } from '../number.ts';
import { placeOn, type Curve, type SpectrumSeries } from '../series.ts';
import { role, seriesColour, seriesDash } from '../specification.ts';
import { profileCurve } from './profile.ts';
import type { Overlay } from './overlay.ts';
import { bandLayers, labelLayers } from './band-layers.ts';
import { visibleMarks } from './overlay-labels.ts';

/** Places that answer the pointer. */
const stripCount = 200;

/** Layers from back to front; `labels` false leaves the x axis bare for a chart that stands above another. */
export function overlayLayers(overlay: Overlay, labels = true): object[] {
  const { series, options, x, y } = overlay;
  const axisX = { field: 'f', ...frequencyAxis(x, options.frequency, labels, overlay.across.title) };
  const axisY = { field: 'v', ...logLevelAxis(axisTitle(overlay.quantity, overlay.unit), y) };
  const names = series.map(({ label }) => label);
  const colour = {
    field: 'series',
    type: 'nominal',
    scale: { domain: names, range: names.map((_, index) => seriesColour(index)) },
    legend: seriesLegend(names, 'stroke'),
  };
  const dash = {
    field: 'series',
    type: 'nominal',
    scale: { domain: names, range: names.map((_, index) => seriesDash(index)) },
  };
  const line = { type: 'line', clip: true, aria: false, invalid: 'break-paths-filter-domains' };
  const flatten = [{ flatten: ['f', 'v'] }];
  return [
    ...bandLayers(options, x, overlay.across.title),
    {
      data: { values: series.flatMap((one) => limitRows(one, overlay)) },
      transform: [{ flatten: ['f', 'v', 'v2'] }],
      mark: { type: 'area', clip: true, aria: false, opacity: role('band'), invalid: 'break-paths-filter-domains' },
      encoding: { x: axisX, y: axisY, y2: { field: 'v2' }, color: colour },
    },
    {
      data: { values: series.flatMap((one) => (one.entries.length > 1 ? runRows(one, overlay) : [])) },
      transform: flatten,
      mark: { ...line, strokeWidth: 1, opacity: role('thin') },
      encoding: { x: axisX, y: axisY, color: colour, detail: { field: 'run' } },
    },
    {
      data: {
        values: series.flatMap((one) => (one.strong === undefined ? [] : [curveRow(one.label, one.strong, overlay)])),
      },
      transform: flatten,
      mark: { ...line, strokeWidth: role('strong') },
      encoding: { x: axisX, y: axisY, color: colour, strokeDash: dash },
    },
    ...profileLayers(overlay, axisX, axisY),
    ...markLayers(overlay),
    ...labelLayers(options, x),
    stripLayer(overlay),
  ];
}

interface Row {
  readonly series: string;
  readonly run?: string;
  readonly f: (number | null)[];
  readonly v: (number | null)[];
  readonly v2?: (number | null)[];
}

const positive = (value: number): number | null => (value > 0 ? drawn(value) : null);

function curveRow(series: string, curve: Curve, { x, options }: Overlay, run?: string): Row {
  const bins = binsToDraw(curve.level, curve.spacing, x.from, x.to, options.frequency);
  return {
    series,
    ...(run === undefined ? {} : { run }),
    f: bins.map((bin) => drawn(bin * curve.spacing)),
    v: bins.map((bin) => positive(curve.level[bin])),
  };
}

const runRows = (one: SpectrumSeries, overlay: Overlay): Row[] =>
  one.entries.map((entry) => curveRow(one.label, entry, overlay, entry.run.label));

function limitRows({ label, strong }: SpectrumSeries, { x, y, options }: Overlay): Row[] {
  if (strong === undefined || strong.low.length !== strong.level.length) return [];
  const bins = binsToDraw(strong.level, strong.spacing, x.from, x.to, options.frequency);
  const upper = bins.map((bin) => positive(strong.high[bin]));
  // A lower limit of zero goes to the axis' foot: the band is open below, not missing.
  const lower = bins.map((bin, index) => (upper[index] === null ? null : drawn(Math.max(strong.low[bin], y.from))));
  return [{ series: label, f: bins.map((bin) => drawn(bin * strong.spacing)), v: lower, v2: upper }];
}

/** Profiles as dashed lines in the text's colour, each with its name at its last point. */
function profileLayers({ options, unit, x }: Overlay, axisX: object, axisY: object): object[] {
  const shown = options.profiles.filter(({ value }) => value.unit.symbol === unit);
  if (shown.length === 0) return [];
  const lines = shown.map(({ name, value }) => ({
    name: name ?? 'profile',
    ...profileCurve(value.points),
  }));
  const ends = shown.map(({ name, value }) => {
    const inside = value.points.filter(({ frequency }) => frequency >= x.from && frequency <= x.to);
    const last = inside[inside.length - 1] ?? value.points[0];
    return { name: name ?? 'profile', f: drawn(last.frequency), v: drawn(last.density) };
  });
  return [
    {
      data: { values: lines },
      transform: [{ flatten: ['f', 'v'] }],
      mark: { type: 'line', clip: true, aria: false, strokeDash: [8, 4], strokeWidth: 1.6, color: role('ink') },
      encoding: { x: axisX, y: axisY, detail: { field: 'name' } },
    },
    {
      data: { values: ends },
      mark: { type: 'text', aria: false, align: 'right', dy: -12, color: role('ink') },
      encoding: { x: axisX, y: axisY, text: { field: 'name', type: 'nominal' } },
    },
  ];
}

function markLayers(overlay: Overlay): object[] {
  const { options, x } = overlay;
  const marks = visibleMarks(options, x);
  if (marks.length === 0) return [];
  return [
    {
      data: { values: marks.map(({ at }) => ({ f: drawn(at) })) },
      mark: { type: 'rule', aria: false, strokeDash: [3, 3], color: role('ink') },
      encoding: { x: { field: 'f', ...frequencyAxis(x, options.frequency, true, overlay.across.title) } },
    },
  ];
}

/** Invisible strips, one per place, that say the values there. */
function stripLayer(overlay: Overlay): object {
  const { series, x, options, unit, across } = overlay;
  const guide = series[0].strong ?? series[0].entries[0];
  const bins = binsToDraw(guide.level, guide.spacing, x.from, x.to, options.frequency, stripCount);
  const edge = (a: number, b: number): number => (options.frequency === 'log' ? Math.sqrt(a * b) : (a + b) / 2);
  const at = bins.map((bin) => bin * guide.spacing);
  const values = at.map((f, index) => ({
    f: drawn(index === 0 ? x.from : edge(at[index - 1], f)),
    f2: drawn(index === at.length - 1 ? x.to : edge(f, at[index + 1])),
    says: [capitalised(placeOn(across, f)), ...series.map((one) => says(one, f, unit))].join('\n'),
  }));
  return {
    name: 'pointer',
    data: { values },
    mark: { type: 'rect', aria: false, color: role('ink'), tooltip: { content: 'encoding' } },
    encoding: {
      x: { field: 'f', ...frequencyAxis(x, options.frequency, true, overlay.across.title) },
      x2: { field: 'f2' },
      tooltip: { field: 'says', type: 'nominal' },
    },
  };
}

function says({ label, strong, entries }: SpectrumSeries, f: number, unit: string): string {
  const curves = strong === undefined ? entries : [strong];
  const bin = strong === undefined ? 0 : Math.round(f / strong.spacing);
  const limits =
    strong === undefined ? '' : ` (${significant(strong.low[bin], 3)} to ${significant(strong.high[bin], 3)})`;
  const figures = curves.map((curve) => significant(curve.level[Math.round(f / curve.spacing)], 3));
  return `${label}: ${figures.join(', ')} ${printedUnit(unit)}${limits}`;
}
