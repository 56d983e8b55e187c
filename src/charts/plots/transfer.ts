import type { TransferEntry, TransferValue } from '../../values/transfer.ts';
import { figureLabel, frequencyAxis, legendRows, logDomain, logLevelAxis, seriesLegend, type Domain } from '../axes.ts';
import { binsToDraw } from '../decimate.ts';
import { axisTitle, distinct, listed, printedUnit, windowWords } from '../names.ts';
import { drawn, hertz, plain, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart, fullWidth, role, seriesColour, seriesDash } from '../specification.ts';
import { stripName } from '../strips.ts';

export interface TransferOptions {
  readonly frequency: 'linear' | 'log';
  readonly over?: Domain;
  readonly marks: readonly { readonly at: number; readonly label: string }[];
}

interface Response {
  readonly label: string;
  readonly entry: TransferEntry;
}

const heights = { magnitude: 190, phase: 100, coherence: 90 };
const seriesLimit = 12;

/** Magnitude, phase and coherence under one another; grey where the coherence is too low to read the response. */
export function transferChart(
  { name, value }: { name: string | undefined; value: TransferValue },
  options: TransferOptions,
): ChartPart | undefined {
  const several = distinct(value.entries.map(({ from, to }) => `${from} ${to}`)).length > 1;
  const responses = value.entries
    .slice(0, seriesLimit)
    .map((entry) => ({ label: several ? `${entry.run.label}, ${entry.from} to ${entry.to}` : entry.run.label, entry }));
  if (responses.length === 0) return undefined;
  const x = responseDomain(responses, options);
  const magnitudes = logDomain(
    responses.flatMap(({ entry }) => binsOf(entry, x, options).map((bin) => entry.magnitude[bin])),
  );
  if (magnitudes === undefined) return undefined;
  const called = value.set ?? name;
  const labels = responses.map(({ label }) => label);
  const pairs = distinct(responses.map(({ entry }) => `from ${entry.from} to ${entry.to}`));
  const cut =
    value.entries.length > responses.length
      ? ` The first ${responses.length} of ${value.entries.length} are shown.`
      : '';
  const panel = (field: Field, height: number, y: object): object =>
    panelView({ responses, value, options, x, field, height, y });
  const { unit } = responses[0].entry;
  return chartPart({
    title: `Frequency response${called === undefined ? '' : ` of ${called}`} ${listed(pairs)}`,
    subtitle: `H1; ${windowWords(value.window)}. Grey: coherence below ${plain(value.leastCoherence)}, not to be read.${cut}`,
    view: {
      spacing: 12,
      vconcat: [
        panel('magnitude', heights.magnitude, logLevelAxis(axisTitle('magnitude', unit), magnitudes)),
        panel('phase', heights.phase, boundedAxis('Phase (°)', -180, 180, [-180, -90, 0, 90, 180])),
        panel('coherence', heights.coherence, boundedAxis('Coherence', 0, 1, [0, 0.5, 1])),
      ],
    },
    height: heights.magnitude + heights.phase + heights.coherence + 76,
    legendRows: legendRows(labels),
    description: `${responses.map((response) => responseSentence(response, value.leastCoherence, x)).join(' ')}${cut}`,
  });
}

type Field = 'magnitude' | 'phase' | 'coherence';

interface PanelRecipe {
  readonly responses: readonly Response[];
  readonly value: TransferValue;
  readonly options: TransferOptions;
  readonly x: Domain;
  readonly field: Field;
  readonly height: number;
  readonly y: object;
}

function responseDomain(responses: readonly Response[], { over, frequency }: TransferOptions): Domain {
  const lowest = Math.min(...responses.map(({ entry }) => entry.spacing));
  const highest = Math.max(...responses.map(({ entry }) => entry.spacing * (entry.magnitude.length - 1)));
  const from = Math.max(over?.from ?? 0, frequency === 'log' ? lowest : 0);
  const to = Math.min(over?.to ?? highest, highest);
  return from < to ? { from, to } : { from: frequency === 'log' ? lowest : 0, to: highest };
}

const binsOf = (
  { magnitude, spacing }: TransferEntry,
  { from, to }: Domain,
  { frequency }: TransferOptions,
): number[] => binsToDraw(magnitude, spacing, from, to, frequency);

function boundedAxis(title: string, from: number, to: number, values: readonly number[]): object {
  return {
    type: 'quantitative',
    scale: { domain: [from, to], nice: false },
    axis: { title, values, labelExpr: figureLabel },
  };
}

function panelView({ responses, value, options, x, field, height, y }: PanelRecipe): object {
  const last = field === 'coherence';
  const labels = responses.map(({ label }) => label);
  const scale = (range: (index: number) => unknown): object => ({
    domain: labels,
    range: labels.map((_, index) => range(index)),
  });
  const axisX = { field: 'f', ...frequencyAxis(x, options.frequency, last) };
  const axisY = { field: 'v', ...y };
  const line = { type: 'line', clip: true, aria: false, invalid: 'break-paths-filter-domains' };
  const readable = (entry: TransferEntry, bin: number): boolean => last || entry.coherence[bin] >= value.leastCoherence;
  const rows = (wanted: (entry: TransferEntry, bin: number) => boolean): object[] =>
    responses.map(({ label, entry }) => {
      const bins = binsOf(entry, x, options);
      return {
        series: label,
        f: bins.map((bin) => drawn(bin * entry.spacing)),
        v: bins.map((bin) => (wanted(entry, bin) ? shown(entry, field, bin) : null)),
      };
    });
  const transform = [{ flatten: ['f', 'v'] }];
  return {
    width: fullWidth,
    height,
    layer: [
      {
        data: { values: rows(() => true) },
        transform,
        mark: { ...line, color: role('faded'), strokeWidth: 0.8 },
        encoding: { x: axisX, y: axisY, detail: { field: 'series' } },
      },
      {
        data: { values: rows(readable) },
        transform,
        mark: { ...line, strokeWidth: responses.length > 2 ? 1.3 : role('strong') },
        encoding: {
          x: axisX,
          y: axisY,
          color: {
            field: 'series',
            type: 'nominal',
            scale: scale(seriesColour),
            legend: field === 'magnitude' ? seriesLegend(labels, 'stroke') : null,
          },
          strokeDash: { field: 'series', type: 'nominal', scale: scale(seriesDash) },
        },
      },
      ...ruleLayers(field, value, options, x, axisX, y),
      stripLayer(responses, options, x, axisX, field),
    ],
  };
}

/** Phase that turns over the edge would draw a line across the plot: a null there breaks it. */
function shown(entry: TransferEntry, field: Field, bin: number): number | null {
  const value = entry[field][bin];
  if (field === 'magnitude' && !(value > 0)) return null;
  if (field === 'phase' && bin > 0 && Math.abs(value - entry.phase[bin - 1]) > 180) return null;
  return drawn(value);
}

function ruleLayers(
  field: Field,
  { leastCoherence }: TransferValue,
  { marks }: TransferOptions,
  x: Domain,
  axisX: object,
  y: object,
): object[] {
  const visible = marks
    .filter(({ at }) => at >= x.from && at <= x.to)
    .map(({ at, label }) => ({ f: drawn(at), label: label === '' ? hertz(at) : label }));
  const rule = { type: 'rule', aria: false, strokeDash: [3, 3], color: role('ink') };
  const level =
    field === 'coherence'
      ? [{ data: { values: [{ v: leastCoherence }] }, mark: rule, encoding: { y: { field: 'v', ...y } } }]
      : [];
  if (visible.length === 0) return level;
  const data = { values: visible };
  const name = {
    data,
    mark: { type: 'text', aria: false, align: 'left', dx: 4, y: 8 },
    encoding: { x: axisX, text: { field: 'label', type: 'nominal' } },
  };
  return [...level, { data, mark: rule, encoding: { x: axisX } }, ...(field === 'magnitude' ? [name] : [])];
}

function stripLayer(
  responses: readonly Response[],
  options: TransferOptions,
  x: Domain,
  axisX: object,
  field: Field,
): object {
  const guide = responses[0].entry;
  const bins = binsToDraw(guide.magnitude, guide.spacing, x.from, x.to, options.frequency, 160);
  const at = bins.map((bin) => bin * guide.spacing);
  const values = at.map((f, index) => ({
    f: drawn(index === 0 ? x.from : (at[index - 1] + f) / 2),
    f2: drawn(index === at.length - 1 ? x.to : (f + at[index + 1]) / 2),
    says: [hertz(f), ...responses.map((response) => says(response, f))].join('\n'),
  }));
  return {
    name: `${stripName}_${field}`,
    data: { values },
    mark: { type: 'rect', aria: false, color: role('ink'), tooltip: { content: 'encoding' } },
    encoding: { x: axisX, x2: { field: 'f2' }, tooltip: { field: 'says', type: 'nominal' } },
  };
}

function says({ label, entry }: Response, f: number): string {
  const bin = Math.round(f / entry.spacing);
  const { magnitude, randomError, phase, coherence, unit } = entry;
  return `${label}: ${significant(magnitude[bin], 3)} ${printedUnit(unit.symbol)} ± ${significant(randomError[bin] * 100, 2)} %, ${significant(phase[bin], 3)}°, coherence ${significant(coherence[bin], 2)}`;
}

function responseSentence({ label, entry }: Response, least: number, x: Domain): string {
  let top: number | undefined;
  let readable = 0;
  let all = 0;
  for (
    let bin = Math.max(1, Math.ceil(x.from / entry.spacing));
    bin < entry.magnitude.length && bin * entry.spacing <= x.to;
    bin++
  ) {
    all++;
    if (!(entry.coherence[bin] >= least)) continue;
    readable++;
    if (top === undefined || entry.magnitude[bin] > entry.magnitude[top]) top = bin;
  }
  if (top === undefined) return `${label}: the coherence is below ${plain(least)} everywhere, so nothing can be read.`;
  return `${label}: largest ${significant(entry.magnitude[top], 3)} ${printedUnit(entry.unit.symbol)} at ${hertz(top * entry.spacing)}, phase ${significant(entry.phase[top], 3)}°; to be read in ${significant((100 * readable) / all, 2)} % of the bins.`;
}
