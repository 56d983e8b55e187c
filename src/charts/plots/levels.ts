import { levelsDescription, levelsTitle } from '../words/levels.ts';
import { levelScaleOf } from '../levelScale.ts';
import type { LevelReference } from '../../values/decibels.ts';
import type { LevelsValue } from '../../values/levels.ts';
import { heightOfNames, runsAxis } from '../axes.ts';
import { bySeries, legendRows } from '../legends.ts';
import { dots, layered, layerOf } from '../marks.ts';
import { channelQuantity, distinct } from '../words/names.ts';
import { drawn } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { setName } from '../series.ts';
import { chartPart } from '../specification.ts';
import { crowdSubtitle, runsInOrder } from '../words/crowds.ts';
import { crowdDrawing, hasCrowd } from './crowdedRuns.ts';

const plotHeight = 240;

/** R.m.s. of every run in the order of the runs: level and drift at a glance; of very many, where most of them lie. */
export function levelsChart(
  named: readonly { readonly name: string | undefined; readonly value: LevelsValue }[],
  level?: LevelReference,
): ChartPart | undefined {
  const first = named.at(0)?.value.rows.at(0);
  if (first === undefined) return undefined;
  const channels = distinct(named.flatMap(({ value }) => value.rows.map((row) => row.channel.name)));
  const points = named.flatMap((one) => {
    const set = setName(one);
    return one.value.rows.map(({ run, channel, rms }) => ({
      run: run.label,
      series: `${set}${channels.length > 1 ? ` ${channel.name}` : ''}`,
      rms,
    }));
  });
  const series = distinct(points.map((point) => point.series));
  const runs = distinct(points.map((point) => point.run));
  const scale = levelScaleOf(first.channel.unit, level);
  const quantity = `${channelQuantity(first.channel)} r.m.s.`;
  const y = scale.linear(
    'rms',
    quantity,
    points.map((point) => point.rms),
  );
  const about = { what: 'levels', title: levelsTitle(quantity, named.map(setName)), legendRows: legendRows(series) };
  const { color, shape } = bySeries(series, 'dot');
  if (hasCrowd(points)) {
    const places = new Map(runs.map((run, index) => [run, index + 1]));
    const placed = points.map(({ rms, ...point }) => ({ ...point, level: rms, place: places.get(point.run)! }));
    const crowds = { points: placed, series, scale, y, title: runsInOrder, height: plotHeight, foot: 0 };
    return chartPart({ ...about, subtitle: crowdSubtitle, ...crowdDrawing(crowds, quantity) });
  }
  const encoding = { x: runsAxis('run', runs), y, color };
  const values = points.map((point) => ({
    ...point,
    rms: drawn(scale.of(point.rms)),
    says: `${point.run}, ${point.series}\n${scale.write(point.rms)} ${scale.unit}`,
  }));
  return chartPart({
    ...about,
    view: layered(
      plotHeight,
      [
        layerOf(undefined, { type: 'line', strokeWidth: 1, opacity: 0.5 }, encoding),
        dots(undefined, 80, { ...encoding, shape }),
      ],
      { data: { values } },
    ),
    height: plotHeight + heightOfNames(runs),
    description: levelsDescription(quantity, scale, series, points),
  });
}
