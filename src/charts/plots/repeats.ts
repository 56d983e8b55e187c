import type { RepeatsValue } from '../../values/repeats.ts';
import { figureLabel } from '../axes.ts';
import { percent, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart, fullWidth, role, seriesColour } from '../specification.ts';

const plotHeight = 240;

/** The smallest reduction that so many runs of each can show, with the wanted one as a line. */
export function repeatsChart(value: RepeatsValue): ChartPart | undefined {
  const { table, detect, runs } = value;
  if (table.length < 2) return undefined;
  const last = Math.max(...table.map((row) => row.runs));
  const x = {
    field: 'runs',
    type: 'quantitative',
    scale: { domain: [1.5, last + 0.5], nice: false, zero: false },
    axis: {
      title: 'Runs of each condition',
      values: table.map((row) => row.runs),
      labelOverlap: 'greedy',
      format: 'd',
    },
  };
  const y = {
    field: 'smallest',
    type: 'quantitative',
    scale: { zero: true },
    axis: { title: 'Smallest reduction shown (%)', labelExpr: figureLabel, tickCount: 6 },
  };
  const values = table.map((row) => ({
    runs: row.runs,
    smallest: row.smallestPercent,
    enough: row.smallestPercent <= detect * 100 ? 'enough' : 'too few',
    says: `${row.runs} runs of each: ${significant(row.smallestPercent, 3)} %\ninterval ± ${significant(row.halfWidthPercent, 3)} %`,
  }));
  const domain = ['enough', 'too few'];
  const legend = { title: null };
  return chartPart({
    title: `What so many runs of each can show, when runs scatter by ${percent(value.spread)}`,
    subtitle: `Smallest true reduction found with ${percent(value.power)} power at ${percent(value.confidence)} confidence; the dashed line is the ${percent(detect)} asked for.`,
    view: {
      width: fullWidth,
      height: plotHeight,
      layer: [
        {
          data: { values },
          mark: { type: 'line', aria: false, strokeWidth: role('strong'), color: seriesColour(0) },
          encoding: { x, y },
        },
        {
          data: { values: [{ smallest: detect * 100 }] },
          mark: { type: 'rule', aria: false, strokeDash: [6, 4], color: role('ink') },
          encoding: { y },
        },
        {
          data: { values },
          mark: {
            type: 'point',
            aria: false,
            filled: true,
            size: 80,
            opacity: 1,
            stroke: role('background'),
            strokeWidth: 0.8,
            tooltip: { content: 'encoding' },
          },
          encoding: {
            x,
            y,
            color: {
              field: 'enough',
              type: 'nominal',
              scale: { domain, range: [seriesColour(0), role('unclear')] },
              legend,
            },
            shape: { field: 'enough', type: 'nominal', scale: { domain, range: ['circle', 'cross'] }, legend },
            tooltip: { field: 'says', type: 'nominal' },
          },
        },
      ],
    },
    height: plotHeight + 46,
    legendRows: 1,
    description: `${runs === undefined ? 'No number of runs in the table is enough' : `${runs} runs of each are needed`} for ${percent(detect)}. ${table
      .map((row) => `${row.runs} runs: ${significant(row.smallestPercent, 2)} %`)
      .join('; ')}.`,
  });
}
