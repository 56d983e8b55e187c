import { bandsDescription, bandsSubtitle, bandsTitle, type BandBar } from '../words/levels.ts';
import { levelScaleOf, type LevelScale } from '../levelScale.ts';
import type { LevelReference } from '../../values/decibels.ts';
import type { BandsValue } from '../../values/bands.ts';
import { fittedNames, heightOfNames } from '../axes.ts';
import { layout } from '../layout.ts';
import { bySeries, legendRows } from '../legends.ts';
import { layered, tellingLayer } from '../marks.ts';
import { bandName, channelQuantity, distinct } from '../words/names.ts';
import { drawn } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { setName } from '../series.ts';
import { chartPart } from '../specification.ts';
import { expOf } from '../../numbers/exponential.ts';
import { logOf } from '../../numbers/logarithm.ts';
import { bandRunLayers, crowdWords, isCrowd, offsetBy } from './bandRuns.ts';

export interface NamedBands {
  readonly name: string | undefined;
  readonly value: BandsValue;
}

const plotHeight = 260;

/** R.m.s. in each band: a bar for each set's geometric mean, every run a dot, or of many where most of them lie. */
export function bandChart(named: readonly NamedBands[], level?: LevelReference): ChartPart | undefined {
  const first = named.at(0)?.value.rows.at(0);
  if (first === undefined) return undefined;
  const bars = barsOf(named);
  const series = distinct(bars.map((bar) => bar.series));
  const bands = distinct(bars.map((bar) => bar.band));
  const quantity = `${channelQuantity(first.channel)} r.m.s.`;
  const scale = levelScaleOf(first.unit, level);
  return chartPart({
    what: 'bands',
    title: bandsTitle(quantity, series),
    subtitle: bandsSubtitle(bars),
    view: layered(plotHeight, barLayers(bars, series, bands, quantity, scale), {
      resolve: { scale: { xOffset: 'independent' } },
    }),
    height: plotHeight + heightOfNames(bands),
    legendRows: legendRows(series),
    widest: Math.max(320, bands.length * (40 + 60 * series.length)),
    description: bandsDescription(bars, quantity, scale),
  });
}

function barsOf(named: readonly NamedBands[]): BandBar[] {
  const channels = distinct(named.flatMap(({ value }) => value.rows.map(({ channel }) => channel.name)));
  const sets = named.map(setName);
  return named.flatMap(({ value }, index) =>
    distinct(value.rows.map(({ channel }) => channel.name)).flatMap((channel) =>
      value.bands.map((band) => {
        const rows = value.rows.filter(
          (row) =>
            row.channel.name === channel &&
            row.band.from === band.from &&
            row.band.to === band.to &&
            Number.isFinite(row.rms),
        );
        const twin = sets.indexOf(sets[index]) === index ? '' : ` (${index + 1})`;
        return {
          series: `${sets[index]}${twin}${channels.length > 1 ? ` ${channel}` : ''}`,
          band: bandName(band),
          mean: geometricMean(rows.map(({ rms }) => rms)),
          runs: rows.map(({ run, rms }) => ({ run: run.label, rms })),
        };
      }),
    ),
  );
}

/** 0 where one of the figures is 0. */
const geometricMean = (figures: readonly number[]): number =>
  expOf(figures.reduce((sum, figure) => sum + logOf(figure), 0) / figures.length);

function barLayers(
  bars: readonly BandBar[],
  series: readonly string[],
  bands: readonly string[],
  quantity: string,
  scale: LevelScale,
): object[] {
  const { unit, write } = scale;
  const levels = bars.flatMap(({ mean, runs }) => [mean, ...runs.map(({ rms }) => rms)]);
  const { color, shape } = bySeries(series, 'dot');
  const encoding = { x: bandsAxis(bands), y: scale.linear('rms', quantity, levels, { axis: { grid: true } }), color };
  const means = bars.map((bar) => ({
    series: bar.series,
    band: bar.band,
    rms: drawn(scale.of(bar.mean)),
    says: [
      `${bar.band}, ${bar.series}`,
      `mean ${write(bar.mean)} ${unit}`,
      ...(isCrowd(bar) ? crowdWords(bar, scale) : bar.runs.map(({ run, rms }) => `${run}: ${write(rms)}`)),
    ].join('\n'),
  }));
  return [
    tellingLayer(
      means,
      { type: 'bar', strokeWidth: 1.2, ...(layout().print ? {} : { fillOpacity: 0.35 }) },
      {
        ...encoding,
        ...(layout().print ? { fillOpacity: fillOf(series) } : {}),
        ...offsetBy('series', { domain: series, paddingInner: 0.12 }),
        stroke: color,
      },
    ),
    ...bandRunLayers(bars, { series, bands, scale, encoding, shape }),
  ];
}

/** In print every second bar is open, so that grey alone tells them apart. */
const fillOf = (series: readonly string[]): object => ({
  field: 'series',
  type: 'nominal',
  scale: { domain: series, range: series.map((_, index) => [0.6, 0, 0.3][index % 3]) },
  legend: null,
});

/** The unit stands in the title where there are many bands. */
function bandsAxis(bands: readonly string[]): object {
  const many = bands.length > 8;
  return {
    field: 'band',
    type: 'nominal',
    sort: null,
    scale: { domain: bands, paddingInner: 0.25, paddingOuter: 0.15 },
    axis: {
      title: many ? 'Band (Hz)' : 'Band',
      ...fittedNames(many ? bands.map((band) => band.replace(' Hz', '')) : bands),
      ticks: false,
      ...(many ? { labelExpr: "replace(datum.label, ' Hz', '')" } : {}),
    },
  };
}
