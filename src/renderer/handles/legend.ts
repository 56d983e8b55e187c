import type { DrawnChart } from '../chart.ts';
import { element } from '../element.ts';
import { hiddenIn, hide } from './update.ts';

/** What Vega keeps with what it draws. */
interface Drawn {
  readonly __data__?: { readonly datum?: { readonly value?: unknown } };
}

/** By how many entries a key goes on. */
const ways: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

/** px around an entry. */
const rim = 3;

/** The entries of a chart's legends as switches, by which the curves of a series are hidden and shown again. */
export class Legend {
  readonly element = element('div', 'washboard-legend');
  readonly #chart: DrawnChart;
  /** By the name of the series. */
  readonly #switches = new Map<string, HTMLElement>();

  constructor(chart: DrawnChart) {
    this.#chart = chart;
    this.element.setAttribute('role', 'group');
    this.element.setAttribute('aria-label', 'Legend');
  }

  /** Lays the switches over the entries, wherever the chart has drawn them. @param around the layer that they stand in */
  place(around: DOMRect): void {
    const entries = entriesOf(this.#chart);
    const hidden = hiddenIn(this.#chart);
    for (const [series, made] of this.#switches) made.hidden = !entries.has(series);
    for (const [series, { left, top, right, bottom }] of entries) {
      const made = this.#switchOf(series);
      Object.assign(made.style, {
        left: `${left - around.left - rim}px`,
        top: `${top - around.top - rim}px`,
        width: `${right - left + 2 * rim}px`,
        height: `${bottom - top + 2 * rim}px`,
      });
      made.setAttribute('aria-checked', String(!hidden.has(series)));
    }
    this.element.hidden = entries.size === 0;
  }

  #switchOf(series: string): HTMLElement {
    const known = this.#switches.get(series);
    if (known !== undefined) return known;
    const made = element('button', 'washboard-switch');
    made.type = 'button';
    made.setAttribute('role', 'switch');
    made.setAttribute('aria-label', series);
    made.title = 'Hide or show';
    made.addEventListener('click', () => this.#turn(series));
    made.addEventListener('keydown', (event) => {
      const { key } = event;
      if (key === 'Enter' || key === ' ') this.#turn(series);
      else if (Object.hasOwn(ways, key)) this.#focus(made, ways[key]);
      else return;
      // The notebook would move to another cell, edit it or run it.
      event.preventDefault();
      event.stopPropagation();
    });
    // One stop of the Tab key for all of them.
    made.tabIndex = this.#switches.size === 0 ? 0 : -1;
    this.#switches.set(series, made);
    this.element.append(made);
    return made;
  }

  #focus(from: HTMLElement, by: number): void {
    const shown = [...this.#switches.values()].filter(({ hidden }) => !hidden);
    const to = shown.at((shown.indexOf(from) + by) % shown.length);
    shown.forEach((one) => (one.tabIndex = one === to ? 0 : -1));
    to?.focus({ preventScroll: true });
  }

  #turn(series: string): void {
    const hidden = new Set(hiddenIn(this.#chart));
    if (!hidden.delete(series)) hidden.add(series);
    void hide(this.#chart, hidden);
  }
}

/** Where the entries of series are drawn, symbol and name together. */
function entriesOf(chart: DrawnChart): Map<string, DOMRect> {
  const known = seriesOf(chart.part().vega);
  const found = new Map<string, DOMRect>();
  for (const drawn of chart.picture.querySelectorAll('.role-legend-symbol > *, .role-legend-label > *')) {
    const value = (drawn as Drawn).__data__?.datum?.value;
    if (typeof value !== 'string' || !known.has(value)) continue;
    const [box, before] = [drawn.getBoundingClientRect(), found.get(value)];
    found.set(value, before === undefined ? box : united(before, box));
  }
  return found;
}

function united(one: DOMRect, other: DOMRect): DOMRect {
  const [left, top] = [Math.min(one.left, other.left), Math.min(one.top, other.top)];
  const [right, bottom] = [Math.max(one.right, other.right), Math.max(one.bottom, other.bottom)];
  return new DOMRect(left, top, right - left, bottom - top);
}

/** The series that have rows of their own in a chart's data. */
function seriesOf(vega: Readonly<Record<string, unknown>>): ReadonlySet<string> {
  const { data = [] } = vega as { readonly data?: readonly { readonly values?: readonly { series?: string }[] }[] };
  return new Set(data.flatMap(({ values }) => (values ?? []).flatMap(({ series }) => series ?? [])));
}
