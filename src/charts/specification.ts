import { compiled } from './compiled.ts';
import { laidOut, layout } from './layout.ts';
import type { ChartAxis, ChartPart } from './output.ts';
import { stripName } from './strips.ts';
import { roleSignals, seriesColours, themes } from './theme.ts';

/**
 * Vega-Lite to Vega, one way for all charts: the common look, colours by role (see theme.ts), a width that follows
 * the signal `chartWidth`, and strips that answer the pointer.
 */

/** A view this wide is as wide as the chart allows; compiling turns the number into a signal. */
export const fullWidth = 601.25;

/** Height in px that the x axis and its title take. */
export const belowPlot = 46;

/** A role of the theme as Vega-Lite takes it. */
export interface Role {
  readonly expr: string;
}

export const role = (name: string): Role => ({ expr: `role_${name}` });

/** Dash and shape of each series, so that colour is never the only difference. */
const dashes = [
  [1, 0],
  [7, 3],
  [2, 2],
  [10, 3, 2, 3],
  [4, 4],
  [12, 3, 2, 3, 2, 3],
];
const shapes = ['circle', 'square', 'diamond', 'triangle-up', 'cross', 'triangle-down'];

export const seriesColour = (index: number): Role => role(`series${(index % seriesColours) + 1}`);
export const seriesDash = (index: number): number[] =>
  dashes[(index + Math.floor(index / seriesColours)) % dashes.length];
export const seriesShape = (index: number): string =>
  shapes[(index + Math.floor(index / seriesColours)) % shapes.length];

export interface Drawing {
  /** What the chart is, in the few words that a file's name has room for: `change`, `over-frequency`. */
  readonly what: string;
  readonly title: string;
  /** Settings and conventions in words, below the title. */
  readonly subtitle?: string;
  /** A view, layers or a concatenation; `fullWidth` where it is to fill the width. */
  readonly view: object;
  /** Height in px of the plots with their axes, without title and legend. */
  readonly height: number;
  readonly legendRows?: number;
  /** Beyond so many px the plot grows no wider, for bars that would only get fatter. */
  readonly widest?: number;
  readonly description: string;
  /** Its horizontal axis, where literals may be drawn along it. */
  readonly axis?: ChartAxis;
  /** What Vega-Lite can't say, done to the compiled specification. */
  readonly finish?: (vega: VegaJson) => VegaJson;
}

/** One chart; its picture is compiled when somebody asks for it, for the layout that the chart was made for: a text has none. */
export function chartPart(drawing: Drawing): ChartPart {
  const wanted = layout();
  const spec = {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    description: drawing.description,
    params: [
      ...Object.entries(roleSignals(themes.light)).map(([name, value]) => ({ name, value })),
      { name: 'chartWidth', value: wanted.width },
    ],
    config: look(),
    ...drawing.view,
  };
  const picture = (): VegaJson => {
    const plain: VegaJson = compiled(spec);
    return responsive(drawing.finish === undefined ? plain : drawing.finish(plain), drawing.widest);
  };
  let vega: VegaJson | undefined;
  return {
    type: 'chart',
    what: drawing.what,
    title: drawing.title,
    subtitle: drawing.subtitle ?? '',
    height: Math.round(drawing.height + 8 + 20 * (drawing.legendRows ?? 0)),
    get vega() {
      return (vega ??= laidOut(wanted, picture));
    },
    description: drawing.description,
    ...(drawing.axis === undefined ? {} : { axis: drawing.axis }),
  };
}

/** A chart in other words, whose picture is still compiled when somebody asks for it. */
export function inOtherWords(part: ChartPart, words: Pick<ChartPart, 'title' | 'subtitle' | 'description'>): ChartPart {
  const copy = Object.defineProperties({}, Object.getOwnPropertyDescriptors(part)) as ChartPart;
  return Object.assign(copy, words);
}

const text = { labelColor: role('ink'), titleColor: role('ink') };

/** Lines and weights in print are those of a page: 0.6 pt axes, 0.4 pt grid, no weight between regular and bold. */
const look = (): object => ({
  background: role('background'),
  padding: layout().print ? 2 : 6,
  view: { stroke: null },
  title: { color: role('ink') },
  axis: {
    ...text,
    gridColor: role('grid'),
    domainColor: role('ink'),
    tickColor: role('ink'),
    labelFontSize: 11,
    titleFontSize: 12,
    titleFontWeight: titleWeight(),
    labelPadding: 4,
    ...(layout().print ? { domainWidth: 0.88, tickWidth: 0.88, gridWidth: 0.59 } : {}),
  },
  axisX: { labelFlush: false, titlePadding: 6 },
  // The least is what plots under each other share; longer figures, as 2.5×10⁻⁴, push the title further out.
  axisY: layout().print
    ? { minExtent: 36, maxExtent: 72, titlePadding: 4 }
    : { minExtent: 44, maxExtent: 80, titlePadding: 6 },
  legend: {
    ...text,
    orient: 'top',
    labelFontSize: 11.5,
    labelLimit: 320,
    symbolSize: layout().print ? 70 : 130,
    symbolStrokeWidth: 2,
    symbolOpacity: 1,
    titleFontWeight: titleWeight(),
    columnPadding: layout().print ? 10 : 18,
    offset: 6,
  },
  header: {
    labelColor: role('ink'),
    titleColor: role('ink'),
    labelFontSize: 11,
    titleFontSize: 12,
    titleFontWeight: titleWeight(),
  },
  text: { color: role('ink'), fontSize: 11 },
  rule: { color: role('ink') },
});

const titleWeight = (): number => (layout().print ? 400 : 500);

export type VegaJson = Record<string, unknown> & {
  signals?: { name: string; value?: unknown; update?: string }[];
  marks?: Mark[];
};
export interface Mark {
  name?: string;
  marks?: Mark[];
  encode?: Record<string, Record<string, unknown>>;
}

/** Turns every full width into a signal, and gives the pointer's strips their highlight. */
function responsive(vega: VegaJson, widest?: number): VegaJson {
  const room = `max(120, chartWidth - ${layout().besidePlot})`;
  const update = widest === undefined ? room : `min(${widest}, ${room})`;
  const signals = (vega.signals ?? []).map((signal) =>
    signal.value === fullWidth ? { name: signal.name, update } : signal,
  );
  const { width, ...rest } = vega;
  if (width === fullWidth) signals.push({ name: 'width', update });
  (vega.marks ?? []).forEach(prepareStrips);
  return { ...rest, ...(width === undefined || width === fullWidth ? {} : { width }), signals };
}

function prepareStrips(mark: Mark): void {
  mark.marks?.forEach(prepareStrips);
  if (mark.name?.startsWith(stripName) !== true || mark.encode === undefined) return;
  mark.encode['update'] = { ...mark.encode['update'], fillOpacity: { value: 0 } };
  mark.encode['hover'] = { fillOpacity: { value: 0.16 } };
}
