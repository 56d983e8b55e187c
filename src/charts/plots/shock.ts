import { bothResponses, responseNames, shockAxis, shockSentence, shockSubtitle, shockTitle } from '../words/shock.ts';
import { firstShown, spaced } from '../words/limits.ts';
import type { LevelReference } from '../../values/decibels.ts';
import type { ShockEntry, ShockValue } from '../../values/shock.ts';
import { frequencyAxis, frequencyRange, logDomain, type Domain } from '../axes.ts';
import { bySeries, legendRows, seriesLegend } from '../legends.ts';
import { levelScaleOf, type LevelScale } from '../levelScale.ts';
import { brokenLine, curvesOf, layered, layerOf, markRule, strips, stripsAround, writtenFrom } from '../marks.ts';
import { channelQuantity, distinct } from '../words/names.ts';
import { drawn, hertz } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import type { Reads } from '../reads.ts';
import { setName } from '../series.ts';
import { belowPlot, chartPart, role } from '../specification.ts';
import type { PlaceMark } from './overlayOptions.ts';

export interface NamedShock {
  readonly name: string | undefined;
  readonly value: ShockValue;
}

export interface ShockOptions {
  readonly over?: Domain;
  readonly marks: readonly PlaceMark[];
  readonly level?: LevelReference;
}

const plotHeight = 280;
const seriesLimit = 8;
const responses = ['maximax', 'residual'] as const;

interface Curve {
  readonly entry: ShockEntry;
  readonly series: string;
}

/** Responses on log-log paper: at any time as full lines, after the end as dashed ones. */
export function shockChart(named: readonly NamedShock[], options: ShockOptions): ChartPart | undefined {
  const all = named.flatMap(({ value }) => value.entries);
  const channels = distinct(all.map(({ channel }) => channel.name));
  const curves = all.slice(0, seriesLimit).map((entry) => ({
    entry,
    series: `${entry.run.label}${channels.length > 1 ? ` ${entry.channel.name}` : ''}`,
  }));
  const levels = logDomain(curves.flatMap(({ entry }) => responses.flatMap((one) => [...entry[one]])));
  if (levels === undefined) return undefined;
  const ends = curves.flatMap(({ entry: { frequencies } }) => [frequencies[0], frequencies[frequencies.length - 1]]);
  const x = frequencyRange(Math.min(...ends), Math.max(...ends), { ...options, frequency: 'log' });
  const { channel } = curves[0].entry;
  const scale = levelScaleOf(channel.unit, options.level);
  const axes = {
    x: frequencyAxis(x, 'log', shockAxis),
    y: scale.logarithmic(`response ${channelQuantity(channel)}`, levels),
  };
  const cut = firstShown(curves.length, all.length, 'none');
  const names = curves.length > 1 ? distinct(curves.map(({ series }) => series)) : [];
  return chartPart({
    what: 'shock',
    title: shockTitle(named.map(setName)),
    subtitle: spaced(shockSubtitle(named.map(({ value }) => value.damping)), cut),
    view: layered(plotHeight, [
      ...responseLayers({ curves, names, axes, scale }),
      ...markLayers(options.marks, x, axes.x),
      strips(stripRows(curves, x, scale), axes.x, 'f2'),
    ]),
    height: plotHeight + belowPlot,
    legendRows: legendRows(names.length === 0 ? Object.values(responseNames) : names),
    description: spaced(...curves.map(({ entry, series }) => shockSentence(series, entry, scale)), cut),
    axis: { quantity: 'frequency' },
  });
}

interface Recipe {
  readonly curves: readonly Curve[];
  /** None where there is one curve, which the title names. */
  readonly names: readonly string[];
  readonly axes: { readonly x: object; readonly y: object };
  readonly scale: LevelScale;
}

/** The runs by colour, and of each the response by its dash and weight. */
function responseLayers({ curves, names, axes, scale }: Recipe): object[] {
  const labels = responses.map((one) => responseNames[one]);
  const dash = {
    field: 'response',
    type: 'nominal',
    scale: {
      domain: labels,
      range: [
        [1, 0],
        [5, 3],
      ],
    },
    // Two legends beside each other would take the plot's room; the subtitle says what the dashes are.
    legend: names.length === 0 ? seriesLegend(labels, 'line') : null,
  };
  const legend = names.length === 0 ? null : seriesLegend(names, 'line');
  const { color } = bySeries(distinct(curves.map(({ series }) => series)), 'line', { legend });
  return responses.map((one) => {
    const rows = curves.map(({ entry, series }) => ({
      series,
      response: responseNames[one],
      reads: readsOf(names.length === 0 ? responseNames[one] : `${series}, ${responseNames[one]}`, scale),
      f: Array.from(entry.frequencies, drawn),
      v: Array.from(entry[one], (level) => (level > 0 ? drawn(level) : null)),
    }));
    const weight = { ...brokenLine, strokeWidth: one === 'maximax' ? role('strong') : 1.2 };
    return curvesOf(rows, ['f', 'v'], weight, { ...axes, color, strokeDash: dash });
  });
}

const readsOf = (label: string, { unit, factor }: LevelScale): Reads => ({
  label,
  unit,
  times: 20,
  ...(factor === undefined ? {} : { factor }),
});

function markLayers(marks: readonly PlaceMark[], { from, to }: Domain, x: object): object[] {
  const shown = marks
    .filter(({ at }) => at >= from && at <= to)
    .map(({ at, label }) => ({ f: drawn(at), label: label === '' ? hertz(at) : label }));
  if (shown.length === 0) return [];
  const name = layerOf(shown, { type: 'text', align: 'left', dx: 4, y: 8 }, { x, ...writtenFrom('label') });
  return [layerOf(shown, markRule, { x }), name];
}

/** Both responses of every run, about each natural frequency of the first. */
function stripRows(curves: readonly Curve[], x: Domain, { write, unit }: LevelScale): ReturnType<typeof stripsAround> {
  const places = Array.from(curves[0].entry.frequencies).filter((f) => f >= x.from && f <= x.to);
  const says = ({ series, entry: { frequencies, maximax, residual } }: Curve, f: number): string => {
    const k = frequencies.findIndex((one) => one >= f * (1 - 1e-9));
    return k < 0 ? `${series}: –` : `${series}: ${bothResponses(write(maximax[k], 3), write(residual[k], 3))}`;
  };
  return stripsAround(places, x, 'log', (f) => [
    { text: `${hertz(f)}, in ${unit}` },
    ...curves.map((one) => ({ series: one.series, text: says(one, f) })),
  ]);
}
