import { textWidth } from './axes.ts';
import { role, seriesColour, seriesDash, seriesShape } from './specification.ts';

/** How series are told apart, and their legends. */

const besideName = 44;

/** A piece of line long enough to show its dashes, and no higher than the name beside it. */
const lineSymbol = { symbolType: 'M-1,0L5.4,0', symbolSize: 100, labelOffset: 26 };

const longestOf = (labels: readonly string[]): number => Math.max(0, ...labels.map((label) => textWidth(label, 12)));

/** Legend of series, in as many columns as their longest name leaves room for. */
export function seriesLegend(labels: readonly string[], symbol: 'line' | 'dot'): object {
  return {
    title: null,
    ...(symbol === 'dot' ? { symbolStrokeWidth: 0 } : lineSymbol),
    columns: { expr: `max(1, floor((chartWidth - 60) / ${Math.round(longestOf(labels) + besideName)}))` },
    labelLimit: { expr: 'chartWidth - 130' },
    labelColor: role('ink'),
  };
}

/** Rows that such a legend takes at the default width. */
export const legendRows = (labels: readonly string[], width = 660): number =>
  Math.ceil(labels.length / Math.max(1, Math.floor(width / (longestOf(labels) + besideName))));

export interface SeriesChannels {
  readonly color: object;
  readonly shape: object;
  readonly strokeDash: object;
}

/** Colour, shape and dash of each series by its name in a field, with one legend of lines or of dots for them all. */
export function bySeries(
  names: readonly string[],
  symbol: 'line' | 'dot',
  { field = 'series', legend = seriesLegend(names, symbol) }: { field?: string; legend?: object | null } = {},
): SeriesChannels {
  const channel = (of: (index: number) => unknown, rest: object): object => ({
    field,
    type: 'nominal',
    scale: { domain: names, range: names.map((_, index) => of(index)) },
    ...rest,
  });
  return {
    color: channel(seriesColour, { legend }),
    shape: channel(seriesShape, { legend }),
    strokeDash: channel(seriesDash, symbol === 'line' ? {} : { legend: null }),
  };
}
