import type { ChartSubject } from '../../values/chart.ts';
import { drawn } from '../../values/number.ts';
import { levelAxis, textWidth, type Domain } from '../axes.ts';
import { laidOut, layout, type Layout } from '../layout.ts';
import { bySeries, legendRows } from '../legends.ts';
import { dots, layered, layerOf, rimmedText, writtenFrom } from '../marks.ts';
import type { ChartPart } from '../output.ts';
import { chartPart, role } from '../specification.ts';
import { distinct } from '../words/names.ts';
import {
  forestAxis,
  forestDescription,
  forestPlace,
  forestRows,
  forestSubtitle,
  forestText,
  forestTitle,
  type ForestRow,
} from '../words/studies.ts';

/** px; of one study within a row. */
const lineHeight = 32;
const besideText = 24;
const labelLimit = 220;

export const forestOf = (subject: ChartSubject): ForestRow[] => forestRows(subject);

/** Changes of several studies with their intervals, a row for each band, studies told apart by shape; none of nothing. */
export function studiesChart(rows: readonly ForestRow[]): ChartPart | undefined {
  if (rows.length === 0) return undefined;
  return laidOut(besideNames(rows), () => chartOf(rows));
}

function besideNames(rows: readonly ForestRow[]): Layout {
  const now = layout();
  const names = Math.max(...rows.map((row) => textWidth(forestPlace(row, rows))));
  const beside = Math.max(now.besidePlot, Math.min(names, labelLimit) + besideText);
  return { ...now, besidePlot: beside, plotWidth: now.width - beside };
}

function chartOf(rows: readonly ForestRow[]): ChartPart {
  const studies = distinct(rows.map(({ study }) => study));
  const places = placesOf(rows);
  const domain = domainOf(rows);
  const height = lineHeight * studies.length * places.length + 14;
  const isCut = rows.some(
    ({ lowPercent, highPercent }) => (lowPercent ?? 0) < domain.from || (highPercent ?? 0) > domain.to,
  );
  return chartPart({
    what: 'studies',
    title: forestTitle(rows),
    subtitle: forestSubtitle(rows, isCut),
    view: layered(height, layers(rows, { studies, places, domain }), { height }),
    height: height + 48,
    legendRows: legendRows(studies),
    description: forestDescription(rows),
  });
}

/** Those of one band beside each other, in the order in which bands come first. */
function placesOf(rows: readonly ForestRow[]): string[] {
  const bands = distinct(rows.map(({ band }) => band));
  return bands.flatMap((band) =>
    distinct(rows.filter((row) => row.band === band).map((row) => forestPlace(row, rows))),
  );
}

/** All changes and zero; a limit far beyond every change runs off the edge. */
function domainOf(rows: readonly ForestRow[]): Domain {
  const reach = Math.max(...rows.map(({ changePercent }) => Math.abs(changePercent)), 2) * 4 + 10;
  const changes = rows.map(({ changePercent }) => changePercent);
  const from = Math.max(-100, -reach, Math.min(0, ...changes, ...rows.map(({ lowPercent }) => lowPercent ?? 0)));
  const to = Math.min(reach, Math.max(0, ...changes, ...rows.map(({ highPercent }) => highPercent ?? 0)));
  const room = (to - from) * 0.06 + 0.5;
  return { from: from - room, to: to + room };
}

interface Forest {
  readonly studies: readonly string[];
  readonly places: readonly string[];
  readonly domain: Domain;
}

function layers(rows: readonly ForestRow[], { studies, places, domain }: Forest): object[] {
  const values = rows.map((row) => datumOf(row, rows, domain));
  const x = (field: string): object =>
    levelAxis(
      field,
      forestAxis(rows),
      { domain: [domain.from, domain.to], nice: false, zero: false },
      { grid: true, tickCount: { expr: 'floor(chartWidth / 80)' } },
    );
  const y = {
    field: 'place',
    type: 'nominal',
    sort: null,
    scale: { domain: places, padding: 0.1 },
    axis: { title: null, ticks: false, domain: false, labelLimit },
  };
  const yOffset = { field: 'study', type: 'nominal', sort: null, scale: { domain: studies } };
  const { color, shape, strokeDash } = bySeries(studies, 'dot', { field: 'study' });
  const written = { dy: -11, fontSize: 11, align: { expr: 'datum.side' } };
  return [
    layerOf([{ zero: 0 }], { type: 'rule', strokeWidth: 1.2 }, { x: x('zero') }),
    layerOf(
      values,
      { type: 'rule', strokeWidth: role('strong'), clip: true },
      { y, yOffset, x: x('low'), x2: { field: 'high' }, color, strokeDash },
    ),
    dots(values, 110, { y, yOffset, x: x('change'), color, shape }),
    ...rimmedText(values, written, { y, yOffset, x: x('change'), ...writtenFrom('text') }),
  ];
}

function datumOf(row: ForestRow, rows: readonly ForestRow[], domain: Domain): object {
  const text = forestText(row);
  const along = (row.changePercent - domain.from) / (domain.to - domain.from);
  const half = textWidth(text) / 2 / layout().plotWidth;
  const place = forestPlace(row, rows);
  return {
    place,
    study: row.study,
    change: drawn(row.changePercent),
    low: drawn(Math.max(domain.from, row.lowPercent ?? row.changePercent)),
    high: drawn(Math.min(domain.to, row.highPercent ?? row.changePercent)),
    side: along < half ? 'left' : along > 1 - half ? 'right' : 'center',
    text,
    says: `${place}, ${row.study}\n${text}`,
  };
}
