import { crowdsDescription, crowdStripLine, runsFromTo, type CrowdWords } from '../words/crowds.ts';
import type { LevelWords } from '../words/levels.ts';
import { figureLabel, textWidth } from '../axes.ts';
import { layout } from '../layout.ts';
import { curvesOf, dots, layered, rim, rimmedText, strips, writtenFrom, type ToldLine } from '../marks.ts';
import { drawn } from '../../values/number.ts';
import { runQuantiles } from '../../values/runQuantiles.ts';
import { crowdedShares, endsOf, mostDrawn } from '../series.ts';
import { bySeries } from '../legends.ts';
import { belowPlot, role, type Drawing } from '../specification.ts';

/** Runs beside one another, of which a series has more than can be told apart as dots. */

/** The figure of a run, and where it stands among all. */
export interface PlacedRun {
  readonly series: string;
  readonly run: string;
  /** From 1. */
  readonly place: number;
  readonly level: number;
}

/** Whether a series has more runs than are drawn as a dot each. */
export const hasCrowd = (points: readonly { readonly series: string }[]): boolean => {
  const counts = new Map<string, number>();
  for (const { series } of points) counts.set(series, (counts.get(series) ?? 0) + 1);
  return [...counts.values()].some((count) => count > mostDrawn);
};

/** Runs of which a stretch has its own quantiles, at least, and how many stretches there are at most. */
const fewestInStretch = 40;
const mostStretches = 40;
/** A run is far out where it lies so many times the middle half's width beyond it (Tukey 1977). */
const farOut = 3;
/** Of each series so many runs are dots, and so many of these are named. */
const mostDots = 20;
const mostNamed = 4;
/** Places that answer the pointer. */
const stripCount = 60;

interface Crowd {
  readonly series: string;
  readonly runs: readonly PlacedRun[];
  /** The lowest, the highest and what else lies far out, the farthest first. */
  readonly outermost: readonly PlacedRun[];
}

function crowdOf(series: string, all: readonly PlacedRun[]): Crowd {
  const runs = all.filter((one) => one.series === series).sort((a, b) => a.place - b.place);
  const [low, high] = quantiles(runs, [0.25, 0.75]);
  const away = ({ level }: PlacedRun): number => Math.max(low - level, level - high) / (high - low);
  const byLevel = [...runs].sort((a, b) => a.level - b.level);
  const far = runs.filter((run) => away(run) > farOut).sort((a, b) => away(b) - away(a));
  const outermost = [...new Set([byLevel[0], byLevel[byLevel.length - 1], ...far])];
  return { series, runs, outermost: outermost.slice(0, mostDots) };
}

const quantiles = (runs: readonly PlacedRun[], shares: readonly number[]): readonly number[] =>
  runQuantiles(
    runs.map(({ level }) => Float64Array.of(level)),
    [0],
    shares,
  )[0];

function wordsOf({ series, runs, outermost }: Crowd): CrowdWords {
  const [share] = crowdedShares;
  const [low, median, high] = quantiles(runs, [endsOf(share)[0], 0.5, endsOf(share)[1]]);
  return { series, count: runs.length, share, low, median, high, lowest: outermost[0], highest: outermost[1] };
}

interface CrowdChart {
  readonly points: readonly PlacedRun[];
  readonly series: readonly string[];
  readonly scale: LevelWords & { readonly of: (level: number) => number };
  /** Of the field `rms`. */
  readonly y: object;
  /** Of the axis of runs. */
  readonly title: string;
  readonly height: number;
  /** The level at the foot of the axis. */
  readonly foot: number;
}

/**
 * The drawing of such runs beside its title: bands that hold the middle shares of the runs beside one another, their median,
 * and the runs farthest out with their names.
 * @param quantity what the runs have a level of, in words @param behind layers below all of it
 */
export function crowdDrawing(
  chart: CrowdChart,
  quantity: string,
  behind: readonly object[] = [],
): Pick<Drawing, 'view' | 'height' | 'description'> {
  const { points, series, scale, height } = chart;
  const all = series.map((name) => crowdOf(name, points));
  const crowds = all.filter(({ runs }) => runs.length > mostDrawn);
  return {
    view: layered(height, [...behind, ...crowdLayers(chart, crowds)]),
    height: height + belowPlot,
    description: crowdsDescription(quantity, all.map(wordsOf), scale),
  };
}

function crowdLayers(chart: CrowdChart, crowds: readonly Crowd[]): object[] {
  const { points, series, scale, y, title } = chart;
  const { color, shape } = bySeries(series, 'dot');
  const few = points.filter((point) => !crowds.some((crowd) => crowd.series === point.series));
  const x = placeAxis(points, title);
  const bands = crowds.flatMap((crowd) => crowdedShares.map((share) => bandRow(crowd, share, scale.of)));
  const medians = crowds.map((crowd) => curveRow(crowd, (runs) => scale.of(quantiles(runs, [0.5])[0])));
  const shown = [...few, ...crowds.flatMap(({ outermost }) => outermost)].map((point) => ({
    ...point,
    rms: drawn(scale.of(point.level)),
    says: `${point.run}, ${point.series}\n${scale.write(point.level)} ${scale.unit}`,
  }));
  const area = { type: 'area', opacity: role('band') };
  return [
    curvesOf(bands, ['place', 'rms', 'to'], area, { x, y, y2: { field: 'to' }, color, detail: { field: 'share' } }),
    curvesOf(medians, ['place', 'rms'], { type: 'line', strokeWidth: 1.6 }, { x, y, color }),
    strips(stripRows(chart), x, 'until'),
    dots(shown, 44, { x, y, color, shape }, rim(0.8)),
    ...nameLayers(crowds, chart, x),
  ];
}

const lastOf = (points: readonly PlacedRun[]): number => points.reduce((most, { place }) => Math.max(most, place), 1);

function placeAxis(points: readonly PlacedRun[], title: string): object {
  return {
    field: 'place',
    type: 'quantitative',
    scale: { domain: [1, lastOf(points)], nice: false, zero: false },
    axis: {
      title,
      grid: false,
      labelExpr: figureLabel,
      tickCount: { expr: 'floor(chartWidth / 110)' },
      tickMinStep: 1,
    },
  };
}

/** Stretches of runs that stand one after the other, each with what its runs give; flat up to the ends. */
function curveRow<T>(
  { series, runs }: Crowd,
  of: (runs: readonly PlacedRun[]) => T,
): { series: string; place: number[]; rms: T[] } {
  const count = Math.min(mostStretches, Math.floor(runs.length / fewestInStretch));
  const ends = Array.from({ length: count + 1 }, (_, k) => Math.round((k * runs.length) / count));
  const stretches = ends.slice(1).map((to, k) => runs.slice(ends[k], to));
  const figures = stretches.map(of);
  const middles = stretches.map((own) => (own[0].place + own[own.length - 1].place) / 2);
  return {
    series,
    place: [runs[0].place, ...middles, runs[runs.length - 1].place],
    rms: [figures[0], ...figures, figures[figures.length - 1]],
  };
}

function bandRow(crowd: Crowd, share: number, of: (level: number) => number): object {
  const { rms, ...row } = curveRow(crowd, (runs) => quantiles(runs, endsOf(share)).map((level) => drawn(of(level))));
  return { ...row, share, rms: rms.map(([low]) => low), to: rms.map(([, high]) => high) };
}

/** What the runs of each stretch of the axis are, series by series. */
function stripRows({ points, series, scale }: CrowdChart): { place: number; until: number; told: ToldLine[] }[] {
  const last = lastOf(points);
  const inStrip = (place: number): number => Math.min(stripCount - 1, Math.floor(((place - 1) * stripCount) / last));
  const strips: PlacedRun[][] = Array.from({ length: stripCount }, () => []);
  for (const point of points) strips[inStrip(point.place)].push(point);
  return strips.flatMap((own, k) => {
    if (own.length === 0) return [];
    const lines = series.flatMap((name) => {
      const runs = own.filter((point) => point.series === name);
      return runs.length === 0
        ? []
        : [{ series: name, text: crowdStripLine(name, quantiles(runs, [0, 0.5, 1]), scale) }];
    });
    const [from, to] = [own[0], own[own.length - 1]];
    const reach = last / stripCount;
    return [
      {
        place: 1 + k * reach,
        until: Math.min(last, 1 + (k + 1) * reach),
        told: [{ text: runsFromTo(from, to) }, ...lines],
      },
    ];
  });
}

/** Names beside the dots farthest out, each where it touches none before it. */
function nameLayers(crowds: readonly Crowd[], { points, scale, y, height, foot }: CrowdChart, x: object): object[] {
  const last = lastOf(points);
  const top = points.reduce((most, { level }) => Math.max(most, level), foot);
  const placed: { readonly x: number; readonly y: number; readonly width: number }[] = [];
  const names = crowds.flatMap(({ outermost }) =>
    outermost.slice(0, mostNamed).flatMap(({ run, place, level }) => {
      const width = textWidth(run) + 12;
      const at = (place / last) * layout().plotWidth;
      const isLeft = at + width > layout().plotWidth;
      const box = { x: isLeft ? at - width : at, y: ((top - level) / (top - foot || 1)) * height, width };
      const touches = placed.some(
        (other) => Math.abs(other.y - box.y) < 14 && other.x < box.x + box.width && box.x < other.x + other.width,
      );
      if (touches) return [];
      placed.push(box);
      return [{ place, rms: drawn(scale.of(level)), name: run, isLeft }];
    }),
  );
  return [false, true].flatMap((isLeft) => {
    const own = names.filter((name) => name.isLeft === isLeft);
    const side = { align: isLeft ? 'right' : 'left', dx: isLeft ? -7 : 7, baseline: 'middle' };
    return own.length === 0 ? [] : rimmedText(own, side, { x, y, ...writtenFrom('name') });
  });
}
