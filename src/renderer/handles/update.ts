import type { ChartPart, Output } from '../../charts/output.ts';
import type { DrawnChart } from '../chart.ts';
import { domainSignal, numbersOf } from '../domains.ts';
import type { DrawnOutput } from '../output.ts';
import type { View } from '../slimVega.ts';

/** What an output shows by now, where that is no longer what it was drawn with. */
const shown = new WeakMap<DrawnOutput, Output>();
export const shownBy = (drawn: DrawnOutput): Output | undefined => shown.get(drawn) ?? drawn.data;

/**
 * Shows another output in the place of one, its views kept.
 * @param except a chart that stays as it is
 * @returns whether it could; what has other parts or messages is to be drawn anew
 */
export async function show(drawn: DrawnOutput, next: Output, except?: DrawnChart): Promise<boolean> {
  const before = shownBy(drawn);
  if (before === undefined || !alike(before, next)) return false;
  shown.set(drawn, next);
  const nodes = [...drawn.root.children].slice(-next.parts.length);
  const charts = [...drawn.charts];
  const drawing: Promise<void>[] = [];
  next.parts.forEach((part, index) => {
    const old = before.parts[index];
    const chart = part.type === 'chart' ? charts.shift() : undefined;
    if (chart !== undefined && chart === except) return;
    if (part.type === 'chart') {
      // Not what was told last: a chart that was left as it is has not drawn that.
      if (chart !== undefined && !same(chart.part(), part)) drawing.push(showChart(chart, part));
      return;
    }
    if (same(old, part)) return;
    const made = drawn.made(part);
    const node = nodes[index];
    if (made instanceof HTMLDetailsElement && node instanceof HTMLDetailsElement) made.open = node.open;
    node.replaceWith(made);
  });
  await Promise.all(drawing);
  return true;
}

const same = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

const alike = (one: Output, other: Output): boolean =>
  same(one.messages, other.messages) &&
  same(
    one.parts.map(({ type }) => type),
    other.parts.map(({ type }) => type),
  );

/** In its own view where only data and domains differ. */
function showChart(chart: DrawnChart, next: ChartPart): Promise<void> {
  const fits = shapeOf(chart.part()) === shapeOf(next);
  return chart.show(next, fits ? (view) => refresh(view, next, hiddenIn(chart)) : undefined);
}

/** Of charts the series that their readers have hidden. */
const hidden = new WeakMap<DrawnChart, ReadonlySet<string>>();
export const hiddenIn = (chart: DrawnChart): ReadonlySet<string> => hidden.get(chart) ?? new Set();

/** Shows all series of a chart but some; what is drawn for nobody else stays as it is. */
export async function hide(chart: DrawnChart, series: ReadonlySet<string>): Promise<void> {
  hidden.set(chart, series);
  const part = chart.part();
  if (chart.view() !== undefined) await chart.show(part, (view) => refresh(view, part, series));
}

interface Row {
  readonly series?: string;
  /** What the pointer is told, a line a series. */
  readonly told?: readonly { readonly series?: string }[];
}

interface Spec {
  readonly data?: readonly { readonly name: string; readonly values?: readonly Row[] }[];
  readonly scales?: readonly { readonly name: string; readonly domain?: unknown }[];
}

/** All of a specification but its data, its numeric domains and its words. */
const shapeOf = ({ vega }: ChartPart): string => {
  const { data = [], scales = [] } = vega as Spec;
  return JSON.stringify({
    ...vega,
    description: '',
    data: data.map(({ values, ...rest }) => ({ ...rest, has: values !== undefined })),
    scales: scales.map((scale) => (numbersOf(scale) === undefined ? scale : { ...scale, domain: 'numbers' })),
  });
};

/** The rows of the series that are shown, and of the lines that are told theirs. */
function shownOf(rows: readonly Row[], without: ReadonlySet<string>): Row[] {
  const isShown = ({ series }: { readonly series?: string }): boolean => series === undefined || !without.has(series);
  return rows.filter(isShown).map((row) => (row.told === undefined ? row : { ...row, told: row.told.filter(isShown) }));
}

function refresh(view: View, { vega }: ChartPart, without: ReadonlySet<string>): void {
  const { data = [], scales = [] } = vega as Spec;
  // The view makes the rows its own: those of the part stay what they are.
  for (const { name, values } of data)
    if (values !== undefined) view.data(name, structuredClone(shownOf(values, without)));
  for (const scale of scales) {
    const numbers = numbersOf(scale);
    if (numbers !== undefined) view.signal(domainSignal(scale.name), [...numbers]);
  }
}
