import type { LevelsValue } from '../../values/levels.ts';
import { figureLabel, fittedNames, fromZero, heightOfNames, legendRows, seriesLegend } from '../axes.ts';
import { axisTitle, capitalised, channelQuantity, distinct, listed, printedUnit } from '../names.ts';
import { drawn, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { setName } from '../series.ts';
import { chartPart, fullWidth, seriesColour, seriesShape } from '../specification.ts';

const plotHeight = 240;

/** R.m.s. of every run in the order of the runs: level and drift at a glance. */
export function levelsChart(
  named: readonly { readonly name: string | undefined; readonly value: LevelsValue }[],
): ChartPart | undefined {
  const first = named[0]?.value.rows[0];
  if (first === undefined) return undefined;
  const channels = distinct(named.flatMap(({ value }) => value.rows.map((row) => row.channel.name)));
  const points = named.flatMap((one) =>
    one.value.rows.map(({ run, channel, rms }) => ({
      run: run.label,
      series: `${setName(one)}${channels.length > 1 ? ` ${channel.name}` : ''}`,
      rms,
    })),
  );
  const series = distinct(points.map((point) => point.series));
  const runs = distinct(points.map((point) => point.run));
  const unit = first.channel.unit.symbol;
  const quantity = `${channelQuantity(first.channel)} r.m.s.`;
  const legend = seriesLegend(series, undefined);
  const colour = {
    field: 'series',
    type: 'nominal',
    scale: { domain: series, range: series.map((_, index) => seriesColour(index)) },
    legend,
  };
  const encoding = {
    x: {
      field: 'run',
      type: 'nominal',
      sort: null,
      scale: { domain: runs },
      axis: { title: 'Run', ...fittedNames(runs) },
    },
    y: {
      field: 'rms',
      type: 'quantitative',
      scale: fromZero(points.map(({ rms }) => rms)),
      axis: { title: axisTitle(quantity, unit), labelExpr: figureLabel, tickCount: 6 },
    },
    color: colour,
  };
  const values = points.map((point) => ({
    ...point,
    rms: drawn(point.rms),
    says: `${point.run}, ${point.series}\n${significant(point.rms)} ${printedUnit(unit)}`,
  }));
  return chartPart({
    title: `${capitalised(quantity)} of each run: ${listed(distinct(named.map(setName)))}`,
    view: {
      width: fullWidth,
      height: plotHeight,
      data: { values },
      layer: [
        { mark: { type: 'line', aria: false, strokeWidth: 1, opacity: 0.5 }, encoding },
        {
          mark: { type: 'point', filled: true, size: 80, opacity: 1, aria: false, tooltip: { content: 'encoding' } },
          encoding: {
            ...encoding,
            shape: {
              field: 'series',
              type: 'nominal',
              scale: { domain: series, range: series.map((_, index) => seriesShape(index)) },
              legend,
            },
            tooltip: { field: 'says', type: 'nominal' },
          },
        },
      ],
    },
    height: plotHeight + heightOfNames(runs),
    legendRows: legendRows(series),
    description: `${capitalised(quantity)} by run. ${series.map((name) => rangeSentence(name, points, unit)).join(' ')}`,
  });
}

function rangeSentence(
  name: string,
  points: readonly { run: string; series: string; rms: number }[],
  unit: string,
): string {
  const own = points.filter((point) => point.series === name).sort((a, b) => a.rms - b.rms);
  const write = ({ rms, run }: { rms: number; run: string }): string =>
    `${significant(rms, 3)} ${printedUnit(unit)} (${run})`;
  return own.length === 1
    ? `${name}: ${write(own[0])}.`
    : `${name}: ${write(own[0])} to ${write(own[own.length - 1])}.`;
}
