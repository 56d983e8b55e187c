import type { ChartPart, Output, Part } from '../charts/output.ts';
import { readingOf } from '../charts/reading.ts';
import { withPalette } from '../charts/palettes.ts';
import type { Theme } from '../charts/theme.ts';
import { drawChart, type DrawnChart } from './chart.ts';
import { element } from './element.ts';
import { isOutput } from './isOutput.ts';
import { messageElement, messageElements } from './message.ts';
import { tableElement } from './table.ts';
import { textElement } from './text.ts';

/** One output item on the page. */
export interface DrawnOutput {
  readonly ready: Promise<void>;
  readonly charts: readonly DrawnChart[];
  /** What it shows, if that could be read, and the element in which its messages and then its parts stand. */
  readonly data: Output | undefined;
  readonly root: HTMLElement;
  /** The element of a part that is no chart. */
  made(part: Exclude<Part, ChartPart>): HTMLElement;
  retheme(theme: Theme): void;
  dispose(): void;
}

/** Puts an output into its place, and in it what was there before is gone: the answer first, unless something keeps it back. */
export function drawOutput(data: unknown, container: HTMLElement, theme: Theme): DrawnOutput {
  const charts: DrawnChart[] = [];
  const coloured = (of: Theme): Theme => withPalette(of, isOutput(data) ? data.palette : undefined);
  const drawn = (part: Part): Node => {
    if (part.type !== 'chart') return made(part);
    charts.push(drawChart(part, coloured(theme)));
    return charts[charts.length - 1].element;
  };
  const contents = isOutput(data) ? inOrder(data, drawn) : [unreadable(data)];
  const root = element('div', 'washboard-output', ...contents);
  container.replaceChildren(root);
  return {
    charts,
    data: isOutput(data) ? data : undefined,
    root,
    made,
    ready: Promise.all(charts.map((chart) => chart.ready)).then(() => undefined),
    retheme: (next) => charts.forEach((chart) => chart.retheme(coloured(next))),
    dispose: () => charts.splice(0).forEach((chart) => chart.dispose()),
  };
}

const made = (part: Exclude<Part, ChartPart>): HTMLElement =>
  part.type === 'table' ? tableElement(part) : textElement(part);

function inOrder(data: Output, drawn: (part: Part) => Node): Node[] {
  const { above, answer, below, rest } = readingOf(data);
  return [...messageElements(above), ...answer.map(drawn), ...messageElements(below), ...rest.map(drawn)];
}

/** For what another version of the extension wrote, or nobody: said, with the text it brings, if any. */
function unreadable(data: unknown): HTMLElement {
  const { version, text } = (typeof data === 'object' && data !== null ? data : {}) as {
    version?: string | number;
    text?: unknown;
  };
  const reason =
    version === undefined || version === 1
      ? "This output can't be read. Run the cell again."
      : `This output has version ${version}, and this renderer knows version 1. Update the extension, or run the cell again.`;
  const notice = messageElement({ severity: 'warning', code: 'renderer.version', message: reason });
  return typeof text === 'string' ? element('div', '', notice, element('pre', 'washboard-plain', text)) : notice;
}
