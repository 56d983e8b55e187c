import { transforms } from 'vega-dataflow';
import * as encoders from 'vega-encode';
import { expressionInterpreter } from 'vega-interpreter';
import { parse } from 'vega-parser';
import * as dataTransforms from 'vega-transforms';
import type { Spec } from 'vega-typings';
import { View } from 'vega-view';
import * as viewTransforms from 'vega-view-transforms';
import { readyToDraw } from '../charts/compiled.ts';
import type { ChartPart } from '../charts/output.ts';
import { visible } from '../result/visible.ts';
import { stripName } from '../charts/strips.ts';
import { withTitle } from '../charts/titles.ts';
import { withTheme, type Theme } from '../charts/theme.ts';
import { measureWithoutCanvas } from './measuring.ts';

// The parts of Vega that charts need: its whole would bring maps, trees and forces into the command line.
Object.assign(transforms, dataTransforms, viewTransforms, encoders);
measureWithoutCanvas();

/**
 * A chart as SVG, without a browser: for reports and figures. Nothing is fetched and no code is made from text,
 * so a page that holds it needs no permission beyond showing a picture.
 *
 * @param theme colours and font; its background is painted
 * @param width of the whole picture in px
 */
export const toSvg = (chart: ChartPart, theme: Theme, width = 720): Promise<string> =>
  drawnAt(chart, theme, { width, titled: true, print: false });

/** The picture and how it is drawn. */
interface Sheet {
  /** px */
  readonly width: number;
  /** Whether title and subtitle stand in it. */
  readonly titled: boolean;
  /** Whether it was laid out for print, in the font whose widths are known. */
  readonly print: boolean;
}

/** As {@link toSvg}, for a page or for print. */
export async function drawnAt(chart: ChartPart, theme: Theme, { width, titled, print }: Sheet): Promise<string> {
  await readyToDraw();
  const titledSpec = titled ? withTitle(chart, width, print) : chart.vega;
  const spec = withTheme(onPaper(titledSpec), theme) as unknown as Spec;
  const view = new View(parse(spec, undefined, { ast: true }), {
    renderer: 'none',
    expr: expressionInterpreter,
    loader: closedLoader,
  } as unknown as ConstructorParameters<typeof View>[1]);
  try {
    let [svg, room, before] = ['', width, NaN];
    // Labels that stand over the edge take room, and give it back in another pass; in print, so do those that leave some.
    for (let pass = 0; pass < (print ? 4 : 2); pass++) {
      await view.signal('chartWidth', room).runAsync();
      svg = await view.toSVG();
      const drawn = widthOf(svg);
      if ((drawn <= width + 1 && (!print || drawn > width - 1)) || drawn === before) break;
      [room, before] = [room + width - drawn, drawn];
    }
    return finished(svg, chart);
  } finally {
    view.finalize();
  }
}

/** Cells of one colour lie edge to edge: softened edges would draw a grid between them. */
const finished = (svg: string, chart: ChartPart): string =>
  visible(ownIds(svg.replaceAll('class="mark-path ', 'shape-rendering="crispEdges" class="mark-path '), chart));

/** Vega numbers clips and gradients through the whole process; ours depend on the chart alone, and meet no other's. */
function ownIds(svg: string, { title, description }: ChartPart): string {
  let hash = 0x811c9dc5;
  for (const letter of title + description) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  const names = new Map<string, string>();
  return svg.replace(/(?<=id="|url\(#)(?:clip|gradient_)\d+/g, (id) => {
    if (!names.has(id)) names.set(id, `c${hash.toString(36)}-${names.size}`);
    return names.get(id) ?? id;
  });
}

const widthOf = (svg: string): number => Number(/<svg[^>]*\bwidth="([\d.]+)"/.exec(svg)?.[1] ?? 0);

const refuse = (): Promise<never> => Promise.reject(new Error('a chart may fetch nothing'));
const closedLoader = { load: refuse, sanitize: refuse, http: refuse, file: refuse };

interface Marks {
  readonly name?: string;
  readonly from?: { readonly data?: string };
  readonly marks?: readonly Marks[];
}

/** The same without the marks that only answer a pointer, and without their data. */
function onPaper(vega: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const dropped = new Set<string>();
  const keep = (marks: readonly Marks[] | undefined): Marks[] =>
    (marks ?? []).flatMap((mark) => {
      if (mark.name?.startsWith(stripName) === true) {
        if (mark.from?.data !== undefined) dropped.add(mark.from.data);
        return [];
      }
      return [mark.marks === undefined ? mark : { ...mark, marks: keep(mark.marks) }];
    });
  const marks = keep(vega['marks'] as readonly Marks[] | undefined);
  const data = (vega['data'] as readonly { name: string }[]).filter(({ name }) => !dropped.has(name));
  return { ...vega, marks, data };
}
