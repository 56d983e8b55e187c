import { runningDescription, runningSubtitle, runningTitle } from '../words/levels.ts';
import { firstShown, spaced } from '../words/limits.ts';
import { levelScaleOf, type LevelScale } from '../levelScale.ts';
import type { LevelReference } from '../../values/decibels.ts';
import type { RunningEntry, RunningValue } from '../../values/running.ts';
import { timeAxis, type Domain } from '../axes.ts';
import { lookedAt } from '../closer.ts';
import { envelope } from '../decimate.ts';
import { bySeries, legendRows } from '../legends.ts';
import { brokenLine, curvesOf, dots, layered, rim, strips, type ToldLine } from '../marks.ts';
import { channelQuantity, distinct } from '../words/names.ts';
import { drawn, plain } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import type { Reads } from '../reads.ts';
import { setName } from '../series.ts';
import { belowPlot, chartPart } from '../specification.ts';

export interface NamedRunning {
  readonly name: string | undefined;
  readonly value: RunningValue;
}

const plotHeight = 260;
const seriesLimit = 12;

/** Running r.m.s. of each run over time, its maximum marked. */
export function runningChart(
  named: readonly NamedRunning[],
  { over, level }: { readonly over?: Domain; readonly level?: LevelReference },
): ChartPart | undefined {
  const all = named.flatMap((one) => {
    const set = setName(one);
    return one.value.entries.map((entry) => ({ entry, set }));
  });
  if (all.length === 0) return undefined;
  const channels = distinct(all.map(({ entry }) => entry.channel.name));
  const lines = all.slice(0, seriesLimit).map(({ entry }) => ({
    entry,
    series: `${entry.run.label}${channels.length > 1 ? ` ${entry.channel.name}` : ''}`,
  }));
  const names = distinct(lines.map(({ series }) => series));
  const { channel } = lines[0].entry;
  const scale = levelScaleOf(channel.unit, level);
  const quantity = `running ${channelQuantity(channel)} r.m.s.`;
  const cut = firstShown(lines.length, all.length, 'none');
  const span = named[0].value.over;
  return chartPart({
    what: 'running',
    title: runningTitle(
      quantity,
      span,
      all.map(({ set }) => set),
    ),
    subtitle: spaced(runningSubtitle(span), cut),
    view: layered(plotHeight, runningLayers(lines, names, quantity, scale, over)),
    height: plotHeight + belowPlot,
    legendRows: legendRows(names),
    description: spaced(runningDescription(quantity, scale, lines), cut),
    axis: { quantity: 'time' },
  });
}

interface Line {
  readonly entry: RunningEntry;
  readonly series: string;
}

function runningLayers(
  lines: readonly Line[],
  names: readonly string[],
  quantity: string,
  scale: LevelScale,
  asked: Domain | undefined,
): object[] {
  const over = lookedAt('time', asked);
  const from = over?.from ?? Math.min(...lines.map(({ entry }) => entry.times[0]));
  const to = over?.to ?? Math.max(...lines.map(({ entry }) => entry.times[entry.times.length - 1]));
  const heights = lines.flatMap(({ entry }) => [entry.largest, ...lowestShown(entry)]);
  const axes = { x: timeAxis('t', { from, to }), y: scale.linear('v', quantity, heights, { room: 1.08 }) };
  const { color, shape } = bySeries(names, 'dot');
  const largest = lines.map(({ entry, series }) => ({
    series,
    t: drawn(entry.largestAt),
    v: drawn(scale.of(entry.largest)),
    says: `${series}\nlargest ${scale.write(entry.largest)} ${scale.unit} at ${plain(entry.largestAt, 5)} s`,
  }));
  return [
    curvesOf(
      lines.map((line) => curve(line, scale, { from, to })),
      ['t', 'v'],
      { ...brokenLine, strokeWidth: 1.2 },
      { ...axes, color },
    ),
    strips(stripRows(lines, { from, to }, scale), axes.x, 't2'),
    dots(largest, 110, { ...axes, color, shape }, rim(1)),
  ];
}

/** The lowest level but silence: where an axis in dB begins. */
function lowestShown({ rms }: RunningEntry): number[] {
  const least = rms.reduce((low, level) => (level > 0 && level < low ? level : low), Infinity);
  return Number.isFinite(least) ? [least] : [];
}

const stripCount = 120;

interface StripRow {
  readonly t: number | null;
  readonly t2: number | null;
  readonly told: readonly ToldLine[];
}

/** Each line's value at the middle of so many stretches of time. */
function stripRows(lines: readonly Line[], { from, to }: Domain, { unit, write }: LevelScale): StripRow[] {
  const width = (to - from) / stripCount;
  return Array.from({ length: stripCount }, (_, strip) => {
    const t = from + strip * width;
    const middle = t + width / 2;
    const shown = (figure: number | undefined): string => (figure === undefined ? '–' : write(figure, 3));
    const figures = lines.map(({ entry, series }) => ({ series, text: `${series}: ${shown(valueAt(entry, middle))}` }));
    return { t: drawn(t), t2: drawn(t + width), told: [{ text: `${plain(middle, 4)} s, in ${unit}` }, ...figures] };
  });
}

/** The last value at or before a time; undefined where the run has none there. */
function valueAt({ times, rms }: RunningEntry, at: number): number | undefined {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] <= at) low = middle + 1;
    else high = middle;
  }
  const step = times.length > 1 ? (times[times.length - 1] - times[0]) / (times.length - 1) : 0;
  // In a gap there is no value, though there is one before it.
  return low === 0 || at - times[low - 1] > 4 * step ? undefined : rms[low - 1];
}

interface CurveRow {
  readonly series: string;
  readonly reads: Reads;
  readonly t: (number | null)[];
  readonly v: (number | null)[];
}

/** Lowest and highest of each column of what is seen, in turn, so that no maximum is lost; a jump in time breaks the line. */
function curve({ entry, series }: Line, scale: LevelScale, seen: Domain): CurveRow {
  const { times, rms } = entry;
  // With one value on either side, so that the line goes to the edges.
  const first = Math.max(0, times.findIndex((time) => time >= seen.from) - 1);
  const beyond = times.findIndex((time) => time > seen.to);
  const { at, low, high } = envelope(rms, first, beyond < 0 ? rms.length : beyond + 1, 400);
  const step = at.length > 1 ? (times[times.length - 1] - times[0]) / at.length : 0;
  const t: (number | null)[] = [];
  const v: (number | null)[] = [];
  at.forEach((index, column) => {
    if (column > 0 && times[index] - times[at[column - 1]] > 4 * step + 1e-9) {
      t.push(drawn(times[index]));
      v.push(null);
    }
    t.push(drawn(times[index]), drawn(times[index]));
    v.push(drawn(scale.of(low[column])), drawn(scale.of(high[column])));
  });
  // Levels in dB are drawn as such, and of these no ratio means anything.
  const reads = { label: series, unit: scale.unit, ...(scale.factor === undefined ? { times: 20 as const } : {}) };
  return { series, reads, t, v };
}
