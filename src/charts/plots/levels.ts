import { capitalised, listed } from '../../result/words.ts';
import type { LevelsValue } from '../../values/levels.ts';
import { fromZero, heightOfNames, levelAxis, runsAxis } from '../axes.ts';
import { bySeries, legendRows } from '../legends.ts';
import { dots, layered, layerOf } from '../marks.ts';
import { axisTitle, channelQuantity, distinct, printedUnit } from '../names.ts';
import { drawn, significant } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { setName } from '../series.ts';
import { chartPart } from '../specification.ts';

const plotHeight = 240;

/** R.m.s. of every run in the order of the runs: level and drift at a glance. */
export function levelsChart(
  named: readonly { readonly name: string | undefined; readonly value: LevelsValue }[],
): ChartPart | undefined {
  const first = named.at(0)?.value.rows.at(0);
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
  const { color, shape } = bySeries(series, 'dot');
  const rms = fromZero(points.map((point) => point.rms));
  const encoding = { x: runsAxis('run', runs), y: levelAxis('rms', axisTitle(quantity, unit), rms), color };
  const values = points.map((point) => ({
    ...point,
    rms: drawn(point.rms),
    says: `${point.run}, ${point.series}\n${significant(point.rms)} ${printedUnit(unit)}`,
  }));
  return chartPart({
    what: 'levels',
    title: `${capitalised(quantity)} of each run: ${listed(distinct(named.map(setName)))}`,
    view: layered(
      plotHeight,
      [
        layerOf(undefined, { type: 'line', strokeWidth: 1, opacity: 0.5 }, encoding),
        dots(undefined, 80, { ...encoding, shape }),
      ],
      { data: { values } },
    ),
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
