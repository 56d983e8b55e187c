import {
  repeatsAxes,
  repeatsDescription,
  repeatsSubtitle,
  repeatsTip,
  repeatsTitle,
  wantedOf,
} from '../words/design.ts';
import type { RepeatsValue } from '../../values/repeats.ts';
import { levelAxis } from '../axes.ts';
import { dots, layered, layerOf, markRule, rim } from '../marks.ts';
import type { ChartPart } from '../output.ts';
import { belowPlot, chartPart, role, seriesColour } from '../specification.ts';

const plotHeight = 240;

/** The smallest reduction, or margin of sameness, that so many runs of each can show, with the wanted one as a line. */
export function repeatsChart(value: RepeatsValue): ChartPart | undefined {
  const { table } = value;
  const wanted = wantedOf(value);
  const titles = repeatsAxes(value);
  if (table.length < 2) return undefined;
  const last = Math.max(...table.map((row) => row.runs));
  const x = {
    field: 'runs',
    type: 'quantitative',
    scale: { domain: [2.5, last + 0.5], nice: false, zero: false },
    axis: {
      title: titles.runs,
      values: table.map((row) => row.runs),
      labelOverlap: 'greedy',
      format: 'd',
    },
  };
  const y = levelAxis('smallest', titles.smallest, { zero: true });
  const values = table.map((row) => ({
    runs: row.runs,
    smallest: row.smallestPercent,
    enough: row.smallestPercent <= wanted * 100 ? 'enough' : 'too few',
    says: repeatsTip(row),
  }));
  const byEnough = (range: readonly unknown[]): object => ({
    field: 'enough',
    type: 'nominal',
    scale: { domain: ['enough', 'too few'], range },
    legend: { title: null },
  });
  const color = byEnough([seriesColour(0), role('unclear')]);
  const shape = byEnough(['circle', 'cross']);
  return chartPart({
    what: 'repeats',
    title: repeatsTitle(value),
    subtitle: repeatsSubtitle(value),
    view: layered(plotHeight, [
      layerOf(values, { type: 'line', strokeWidth: role('strong'), color: seriesColour(0) }, { x, y }),
      layerOf([{ smallest: wanted * 100 }], { ...markRule, strokeDash: [6, 4] }, { y }),
      dots(values, 80, { x, y, color, shape }, rim(0.8)),
    ]),
    height: plotHeight + belowPlot,
    legendRows: 1,
    description: repeatsDescription(value),
  });
}
