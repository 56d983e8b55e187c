import type { ComparisonRow, ComparisonValue, Outcome } from '../../verbs/values.ts';
import { figureLabel, legendRows } from '../axes.ts';
import { bandName, capitalised, distinct } from '../names.ts';
import { drawn, fixed, interval, percent, probability, signed } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart, fullWidth, role } from '../specification.ts';
import { overlayOf } from './overlay.ts';
import { overlayLayers } from './overlay-layers.ts';

/** The change in each band with its interval, below the spectra it was found in. */

const outcomes: readonly { readonly outcome: Outcome; readonly word: string; readonly shape: string }[] = [
  { outcome: 'lower', word: 'lower', shape: 'triangle-down' },
  { outcome: 'higher', word: 'higher', shape: 'triangle-up' },
  { outcome: 'equivalent', word: 'practically the same', shape: 'square' },
  { outcome: 'unclear', word: 'not settled', shape: 'circle' },
];

export const outcomeWord = (outcome: Outcome): string =>
  outcomes.find((entry) => entry.outcome === outcome)?.word ?? outcome;

const rowHeight = 36;
const overlayHeight = 240;

export interface ChangeOptions {
  readonly frequency: 'linear' | 'log';
  readonly over?: { readonly from: number; readonly to: number };
  readonly marks: readonly { readonly at: number; readonly label: string }[];
}

export function comparisonChart(value: ComparisonValue, options: ChangeOptions): ChartPart | undefined {
  if (value.rows.length === 0) return undefined;
  const above = overlayAbove(value, options);
  const below = { width: fullWidth, height: rowHeight * value.rows.length + 14, layer: changeLayers(value) };
  const overlayRoom = above === undefined ? 0 : overlayHeight + 60;
  const intervals = value.rows.some(({ lowPercent }) => lowPercent !== undefined);
  return chartPart({
    title: `Change from ${value.a.name} to ${value.b.name}, ${value.channel}: ${value.metric} in each band`,
    subtitle: `${capitalised(value.method)}.${intervals ? ` Line: ${percent(value.confidence)} interval.` : ''}${zoneWords(value)}`,
    view: {
      spacing: 18,
      resolve: {
        scale: { color: 'independent', x: 'independent', y: 'independent', shape: 'independent' },
        legend: { color: 'independent' },
      },
      vconcat: above === undefined ? [below] : [above, below],
    },
    height: overlayRoom + below.height + 48,
    legendRows: 1 + (above === undefined ? 0 : legendRows([value.a.name, value.b.name])),
    description: changeDescription(value),
  });
}

function overlayAbove(value: ComparisonValue, options: ChangeOptions): object | undefined {
  const { a, b } = value;
  if (a.spectrum === undefined || b.spectrum === undefined) return undefined;
  const own = (side: typeof a, spectrum: NonNullable<typeof a.spectrum>): { name: string; value: typeof spectrum } => ({
    name: side.name,
    value: {
      ...spectrum,
      set: side.name,
      entries: spectrum.entries.filter(({ channel }) => channel.name === value.channel),
      means: spectrum.means.filter(({ channel }) => channel === value.channel),
    },
  });
  const bands = value.rows.map(({ band }) => band);
  const overlay = overlayOf([own(a, a.spectrum), own(b, b.spectrum)], { ...options, bands });
  return overlay && { width: fullWidth, height: overlayHeight, layer: overlayLayers(overlay) };
}

const zoneWords = ({ margin }: ComparisonValue): string =>
  margin === undefined
    ? ''
    : ` Shaded: changes of less than ${percent(margin)}, declared to make no practical difference.`;

/** `-14.2 % (-19.1 to -9.0)`. */
export function changeText({ changePercent, lowPercent, highPercent }: ComparisonRow): string {
  const { value, low, high } = interval(changePercent, lowPercent, highPercent);
  return lowPercent === undefined ? `${signed(value)} %` : `${signed(value)} % (${signed(low)} to ${signed(high)})`;
}

/** From the lowest limit to the highest, zero inside; a limit far beyond every change runs off the edge. */
export function changeDomain(rows: readonly ComparisonRow[], margin = 0): { from: number; to: number } {
  const changes = rows.map((row) => row.changePercent);
  const reach = Math.max(...changes.map(Math.abs), margin * 100, 2) * 4 + 10;
  const from = Math.max(
    -100,
    -reach,
    Math.min(-margin * 110, 0, ...changes, ...rows.map((row) => row.lowPercent ?? 0)),
  );
  const to = Math.min(reach, Math.max(margin * 110, 0, ...changes, ...rows.map((row) => row.highPercent ?? 0)));
  const room = (to - from) * 0.06 + 0.5;
  return { from: from - room, to: to + room };
}

function changeLayers(value: ComparisonValue): object[] {
  const { rows, margin } = value;
  const domain = changeDomain(rows, margin);
  const names = rows.map(bandLabel);
  const data = rows.map((row, index) => ({
    band: names[index],
    change: drawn(row.changePercent),
    low: drawn(Math.max(domain.from, row.lowPercent ?? row.changePercent)),
    high: drawn(Math.min(domain.to, row.highPercent ?? row.changePercent)),
    outcome: outcomeWord(row.outcome),
    text: changeText(row),
    says: `${names[index]}\n${row.sentence}`,
  }));
  const y = {
    field: 'band',
    type: 'nominal',
    sort: null,
    scale: { domain: names, padding: 0.1 },
    axis: { title: null, ticks: false, domain: false, labelLimit: 80 },
  };
  const x = (field: string, axis: object | null = null): object => ({
    field,
    type: 'quantitative',
    scale: { domain: [domain.from, domain.to], nice: false, zero: false },
    axis: axis ?? {
      title: `Change of ${value.metric} from ${value.a.name} to ${value.b.name} (%)`,
      grid: true,
      labelExpr: figureLabel,
      tickCount: { expr: 'floor(chartWidth / 80)' },
    },
  });
  const present = outcomes.filter(({ word }) => data.some((row) => row.outcome === word));
  const scale = { domain: present.map(({ word }) => word), range: present.map(({ outcome }) => role(outcome)) };
  const legend = { title: null };
  const colour = { field: 'outcome', type: 'nominal', scale, legend };
  const zone = { x: { datum: -100 * (margin ?? 0), type: 'quantitative' }, x2: { datum: 100 * (margin ?? 0) } };
  const shape = {
    field: 'outcome',
    type: 'nominal',
    scale: { domain: scale.domain, range: present.map((entry) => entry.shape) },
    legend,
  };
  return [
    ...(margin === undefined
      ? []
      : [
          {
            data: { values: [{}] },
            mark: { type: 'rect', aria: false, color: role('shade_alternate') },
            encoding: zone,
          },
        ]),
    {
      data: { values: [{ zero: 0 }] },
      mark: { type: 'rule', aria: false, strokeWidth: 1.2 },
      encoding: { x: x('zero') },
    },
    {
      data: { values: data },
      mark: { type: 'rule', aria: false, strokeWidth: role('strong'), clip: true },
      encoding: { y, x: x('low'), x2: { field: 'high' }, color: colour },
    },
    {
      data: { values: data },
      mark: { type: 'point', aria: false, filled: true, size: 110, opacity: 1, tooltip: { content: 'encoding' } },
      encoding: { y, x: x('change'), color: colour, shape, tooltip: { field: 'says', type: 'nominal' } },
    },
    {
      data: { values: data.map((row) => ({ ...row, middle: row.change })) },
      mark: {
        type: 'text',
        aria: false,
        dy: -12,
        fontSize: 11,
        align: {
          expr: 'scale("x", datum.middle) < width * 0.15 ? "left" : scale("x", datum.middle) > width * 0.85 ? "right" : "center"',
        },
      },
      encoding: { y, x: x('middle'), text: { field: 'text', type: 'nominal' } },
    },
  ];
}

const bandLabel = ({ band, primary }: ComparisonRow): string => `${bandName(band)}${primary === true ? ' ★' : ''}`;

function changeDescription(value: ComparisonValue): string {
  const sentences = value.rows.map((row) => {
    const p = row.pAdjusted ?? row.p;
    return `${bandName(row.band)}: ${changeText(row)}, ${outcomeWord(row.outcome)}${p === undefined ? '' : `, p ${probability(p)}`}.`;
  });
  const sides = distinct(
    [value.a, value.b].map(({ name, runs }) => `${name} (${runs.length} run${runs.length === 1 ? '' : 's'})`),
  );
  return `Change of ${value.metric} from ${sides.join(' to ')}, ${value.channel}, with ${fixed(value.confidence * 100, 0)} % interval. ${sentences.join(' ')}`;
}
