import { firstShown, spaced } from '../words/limits.ts';
import { responseSentence, responseSubtitle, responseTitle } from '../words/transfer.ts';
import type { TransferEntry, TransferValue } from '../../values/transfer.ts';
import {
  figureLabel,
  frequencyAxis,
  frequencyRange,
  logDomain,
  logLevelAxis,
  type Domain,
  type FrequencyOptions,
} from '../axes.ts';
import { binsToDraw } from '../decimate.ts';
import { bySeries, legendRows } from '../legends.ts';
import { brokenLine, curvesOf, layered, layerOf, markRule, strips, stripsAround, writtenFrom } from '../marks.ts';
import { axisTitle, distinct } from '../words/names.ts';
import { drawn, hertz, significant, printedUnit } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import type { Reads } from '../reads.ts';
import { chartPart, role } from '../specification.ts';
import { stripName } from '../strips.ts';
import type { PlaceMark } from './overlayOptions.ts';

export interface TransferOptions extends FrequencyOptions {
  readonly marks: readonly PlaceMark[];
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
  const spacings = responses.map(({ entry }) => entry.spacing);
  const ends = responses.map(({ entry }) => entry.spacing * (entry.magnitude.length - 1));
  const x = frequencyRange(Math.min(...spacings), Math.max(...ends), options);
  const magnitudes = logDomain(
    responses.flatMap(({ entry }) => binsOf(entry, x, options).map((bin) => entry.magnitude[bin])),
  );
  if (magnitudes === undefined) return undefined;
  const called = value.set ?? name;
  const labels = responses.map(({ label }) => label);
  const shown = responses.map(({ entry }) => entry);
  const cut = firstShown(responses.length, value.entries.length, 'none');
  const panel = (field: Field, height: number, y: object): object =>
    panelView({ responses, value, options, x, field, height, y });
  const { unit } = responses[0].entry;
  return chartPart({
    what: 'response',
    title: responseTitle(called, shown),
    subtitle: spaced(responseSubtitle(value, shown), cut),
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
    description: spaced(
      ...responses.map(({ label, entry }) =>
        responseSentence(label, entry, value.leastCoherence, readableIn(entry, value.leastCoherence, x)),
      ),
      cut,
    ),
    // Three plots of one set.
    axis: { quantity: 'frequency', sets: [0, 0, 0] },
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

const binsOf = (
  { magnitude, spacing }: TransferEntry,
  { from, to }: Domain,
  { frequency }: TransferOptions,
): number[] => binsToDraw(magnitude, spacing, from, to, frequency);

const boundedAxis = (title: string, from: number, to: number, values: readonly number[]): object => ({
  field: 'v',
  type: 'quantitative',
  scale: { domain: [from, to], nice: false },
  axis: { title, values, labelExpr: figureLabel },
});

function panelView(recipe: PanelRecipe): object {
  const { responses, value, options, x, field, height, y } = recipe;
  const last = field === 'coherence';
  const axes = { x: frequencyAxis(x, options.frequency, undefined, last), y };
  const { color, strokeDash } = bySeries(
    responses.map(({ label }) => label),
    'line',
    field === 'magnitude' ? {} : { legend: null },
  );
  const rows = (wanted: (entry: TransferEntry, bin: number) => boolean, isRead = false): object[] =>
    responses.map(({ label, entry }) => {
      const bins = binsOf(entry, x, options);
      return {
        series: label,
        ...(isRead ? { reads: readsOf(label, entry, field) } : {}),
        f: bins.map((bin) => drawn(bin * entry.spacing)),
        v: bins.map((bin) => (wanted(entry, bin) ? shown(entry, field, bin) : null)),
      };
    });
  const readable = (entry: TransferEntry, bin: number): boolean => last || entry.coherence[bin] >= value.leastCoherence;
  const faint = { ...brokenLine, color: role('faded'), strokeWidth: 0.8 };
  const strong = { ...brokenLine, strokeWidth: responses.length > 2 ? 1.3 : role('strong') };
  return layered(height, [
    curvesOf(
      rows(() => true, true),
      ['f', 'v'],
      faint,
      { ...axes, detail: { field: 'series' } },
    ),
    curvesOf(rows(readable), ['f', 'v'], strong, { ...axes, color, strokeDash }),
    ...ruleLayers(recipe, axes.x),
    strips(stripRows(recipe), axes.x, 'f2', { name: `${stripName}_${field}` }),
  ]);
}

function readsOf(label: string, { unit }: TransferEntry, field: Field): Reads {
  if (field === 'magnitude') return { label, unit: printedUnit(unit.symbol), times: 20 };
  return field === 'phase' ? { label: `${label}, phase`, unit: '°' } : { label: `${label}, coherence`, unit: '' };
}

/** Phase that turns over the edge would draw a line across the plot: a null there breaks it. */
function shown(entry: TransferEntry, field: Field, bin: number): number | null {
  const value = entry[field][bin];
  if (field === 'magnitude' && !(value > 0)) return null;
  if (field === 'phase' && bin > 0 && Math.abs(value - entry.phase[bin - 1]) > 180) return null;
  return drawn(value);
}

function ruleLayers({ field, value, options, x, y }: PanelRecipe, axisX: object): object[] {
  const least = field === 'coherence' ? [layerOf([{ v: value.leastCoherence }], markRule, { y })] : [];
  const marks = options.marks
    .filter(({ at }) => at >= x.from && at <= x.to)
    .map(({ at, label }) => ({ f: drawn(at), label: label === '' ? hertz(at) : label }));
  if (marks.length === 0) return least;
  const name = layerOf(marks, { type: 'text', align: 'left', dx: 4, y: 8 }, { x: axisX, ...writtenFrom('label') });
  return [...least, layerOf(marks, markRule, { x: axisX }), ...(field === 'magnitude' ? [name] : [])];
}

/** The values of all responses at so many places. */
function stripRows({ responses, options: { frequency }, x }: PanelRecipe): ReturnType<typeof stripsAround> {
  const { magnitude, spacing } = responses[0].entry;
  const places = binsToDraw(magnitude, spacing, x.from, x.to, frequency, 160).map((bin) => bin * spacing);
  return stripsAround(places, x, frequency, (f) => [
    { text: hertz(f) },
    ...responses.map((response) => ({ series: response.label, text: says(response, f) })),
  ]);
}

function says({ label, entry }: Response, f: number): string {
  const bin = Math.round(f / entry.spacing);
  const { magnitude, randomError, phase, coherence, unit } = entry;
  return `${label}: ${significant(magnitude[bin], 3)} ${printedUnit(unit.symbol)} ± ${significant(randomError[bin] * 100, 2)} %, ${significant(phase[bin], 3)}°, coherence ${significant(coherence[bin], 2)}`;
}

/** The bin of the largest response among those that can be read, and the share of these. */
function readableIn(
  { magnitude, coherence, spacing }: TransferEntry,
  least: number,
  x: Domain,
): { top: number | undefined; share: number } {
  let top: number | undefined;
  let readable = 0;
  let all = 0;
  for (let bin = Math.max(1, Math.ceil(x.from / spacing)); bin < magnitude.length && bin * spacing <= x.to; bin++) {
    all++;
    if (!(coherence[bin] >= least)) continue;
    readable++;
    if (top === undefined || magnitude[bin] > magnitude[top]) top = bin;
  }
  return { top, share: readable / all };
}
