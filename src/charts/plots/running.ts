import type { RunningEntry, RunningValue } from '../../values/running.ts';
import { figureLabel, fromZero, legendRows, seriesLegend, type Domain } from '../axes.ts';
import { envelope } from '../decimate.ts';
import { axisTitle, capitalised, channelQuantity, distinct, printedUnit } from '../names.ts';
import { drawn, plain, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { setName } from '../series.ts';
import { chartPart, fullWidth, role, seriesColour, seriesShape } from '../specification.ts';
import { stripName } from '../strips.ts';

export interface NamedRunning {
  readonly name: string | undefined;
  readonly value: RunningValue;
}

const plotHeight = 260;
const seriesLimit = 12;

/** Running r.m.s. of each run over time, its maximum marked. */
export function runningChart(
  named: readonly NamedRunning[],
  { over }: { readonly over?: Domain },
): ChartPart | undefined {
  const all = named.flatMap((one) => one.value.entries.map((entry) => ({ entry, set: setName(one) })));
  if (all.length === 0) return undefined;
  const channels = distinct(all.map(({ entry }) => entry.channel.name));
  const lines = all.slice(0, seriesLimit).map(({ entry }) => ({
    entry,
    series: `${entry.run.label}${channels.length > 1 ? ` ${entry.channel.name}` : ''}`,
  }));
  const names = distinct(lines.map(({ series }) => series));
  const { channel } = lines[0].entry;
  const unit = channel.unit.symbol;
  const quantity = `running ${channelQuantity(channel)} r.m.s.`;
  const cut = all.length > lines.length ? ` The first ${lines.length} of ${all.length} are shown.` : '';
  return chartPart({
    title: `${capitalised(quantity)} over ${plain(named[0].value.over)} s: ${distinct(all.map(({ set }) => set)).join(', ')}`,
    subtitle: `Each value belongs to the ${plain(named[0].value.over)} s before it; the largest of each is marked.${cut}`,
    view: {
      width: fullWidth,
      height: plotHeight,
      layer: runningLayers(lines, names, axisTitle(quantity, unit), unit, over),
    },
    height: plotHeight + 46,
    legendRows: legendRows(names),
    description: `${capitalised(quantity)} over time. ${lines
      .map(
        ({ entry, series }) =>
          `${series}: largest ${significant(entry.largest, 3)} ${printedUnit(unit)} at ${plain(entry.largestAt, 4)} s.`,
      )
      .join(' ')}${cut}`,
  });
}

interface Line {
  readonly entry: RunningEntry;
  readonly series: string;
}

function runningLayers(
  lines: readonly Line[],
  names: readonly string[],
  title: string,
  unit: string,
  over: Domain | undefined,
): object[] {
  const from = over?.from ?? Math.min(...lines.map(({ entry }) => entry.times[0]));
  const to = over?.to ?? Math.max(...lines.map(({ entry }) => entry.times[entry.times.length - 1]));
  const scale = (range: (index: number) => unknown): object => ({
    domain: names,
    range: names.map((_, index) => range(index)),
  });
  const x = {
    field: 't',
    type: 'quantitative',
    scale: { domain: [from, to], nice: false, zero: false },
    axis: { title: 'Time (s)', labelExpr: figureLabel, tickCount: { expr: 'floor(chartWidth / 90)' } },
  };
  const y = {
    field: 'v',
    type: 'quantitative',
    scale: fromZero(
      lines.map(({ entry }) => entry.largest),
      1.08,
    ),
    axis: { title, labelExpr: figureLabel, tickCount: 6 },
  };
  const color = {
    field: 'series',
    type: 'nominal',
    scale: scale(seriesColour),
    legend: seriesLegend(names, undefined),
  };
  const largest = lines.map(({ entry, series }) => ({
    series,
    t: drawn(entry.largestAt),
    v: drawn(entry.largest),
    says: `${series}\nlargest ${significant(entry.largest)} ${printedUnit(unit)} at ${plain(entry.largestAt, 5)} s`,
  }));
  return [
    {
      data: { values: lines.map(curve) },
      transform: [{ flatten: ['t', 'v'] }],
      mark: { type: 'line', clip: true, aria: false, strokeWidth: 1.2, invalid: 'break-paths-filter-domains' },
      encoding: { x, y, color },
    },
    stripLayer(lines, { from, to }, unit, x),
    {
      data: { values: largest },
      mark: {
        type: 'point',
        filled: true,
        aria: false,
        size: 110,
        opacity: 1,
        stroke: role('background'),
        strokeWidth: 1,
        tooltip: { content: 'encoding' },
      },
      encoding: {
        x,
        y,
        color,
        shape: { field: 'series', type: 'nominal', scale: scale(seriesShape), legend: seriesLegend(names, undefined) },
        tooltip: { field: 'says', type: 'nominal' },
      },
    },
  ];
}

const stripCount = 120;

/** Invisible strips that say each line's value at their middle. */
function stripLayer(lines: readonly Line[], { from, to }: Domain, unit: string, x: object): object {
  const width = (to - from) / stripCount;
  const values = Array.from({ length: stripCount }, (_, strip) => {
    const t = from + strip * width;
    const middle = t + width / 2;
    const figures = lines.map(({ entry, series }) => `${series}: ${significant(valueAt(entry, middle), 3)}`);
    return {
      t: drawn(t),
      t2: drawn(t + width),
      says: [`${plain(middle, 4)} s, in ${printedUnit(unit)}`, ...figures].join('\n'),
    };
  });
  return {
    name: stripName,
    data: { values },
    mark: { type: 'rect', aria: false, color: role('ink'), tooltip: { content: 'encoding' } },
    encoding: { x, x2: { field: 't2' }, tooltip: { field: 'says', type: 'nominal' } },
  };
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

/** Lowest and highest of each column, in turn, so that no maximum is lost; a jump in time breaks the line. */
function curve({ entry, series }: Line): { series: string; t: (number | null)[]; v: (number | null)[] } {
  const { times, rms } = entry;
  const { at, low, high } = envelope(rms, 0, rms.length, 400);
  const step = at.length > 1 ? (times[times.length - 1] - times[0]) / at.length : 0;
  const t: (number | null)[] = [];
  const v: (number | null)[] = [];
  at.forEach((index, column) => {
    if (column > 0 && times[index] - times[at[column - 1]] > 4 * step + 1e-9) {
      t.push(drawn(times[index]));
      v.push(null);
    }
    t.push(drawn(times[index]), drawn(times[index]));
    v.push(drawn(low[column]), drawn(high[column]));
  });
  return { series, t, v };
}
