import type { Handle } from '../../charts/handle.ts';
import type { DrawnChart } from '../chart.ts';
import { element } from '../element.ts';
import { HandleView, type Pending, type Writer } from './handleView.ts';
import { plotsOf } from './plots.ts';

interface HandleState {
  readonly pending: Pending | undefined;
  /** Which end has the focus; -1 for none. */
  readonly focus: number;
}
export type LayerState = ReadonlyMap<string, HandleState>;

/** The handles over one chart; they stay while the picture below them is drawn anew. */
export class Layer {
  readonly #chart: DrawnChart;
  readonly #element = element('div', 'washboard-layer');
  readonly #unwatch: () => void;
  readonly #views: readonly HandleView[];
  readonly #handles: readonly Handle[];
  readonly #refusal = element('p', 'washboard-message washboard-warning washboard-refused');

  constructor(chart: DrawnChart, handles: readonly Handle[], writer: Writer) {
    this.#chart = chart;
    this.#handles = handles.filter(({ axis }) => axis === chart.part().axis?.quantity);
    this.#views = this.#handles.map((handle) => new HandleView(handle, writer, this.#element));
    this.#element.append(...this.#views.map((view) => view.element));
    this.#element.setAttribute('role', 'group');
    this.#element.setAttribute('aria-label', 'What can be moved');
    this.#refusal.setAttribute('role', 'status');
    this.#refusal.hidden = true;
    chart.picture.after(this.#refusal);
    this.#unwatch = chart.watch(() => this.#place());
    this.#place();
  }

  dispose(): void {
    this.#unwatch();
    this.#views.forEach((view) => view.dispose());
    this.#element.remove();
    this.#refusal.remove();
  }

  /** What its reader is about, to be gone on with in another drawing of the chart. */
  get state(): LayerState {
    const states = this.#named().map(([name, view]): readonly [string, HandleState] => [
      name,
      { pending: view.pending, focus: view.sliders.findIndex((slider) => slider === document.activeElement) },
    ]);
    return new Map(states);
  }

  /** Goes on where an earlier drawing of the chart was left. */
  resume(state: LayerState): void {
    for (const [name, view] of this.#named()) {
      const { pending, focus = -1 } = state.get(name) ?? {};
      view.sliders.at(focus === -1 ? Infinity : focus)?.focus({ preventScroll: true });
      if (pending !== undefined) view.resume(pending);
    }
  }

  /** The handles, each with a name by which it is known again. */
  #named(): (readonly [string, HandleView])[] {
    return this.#views.map((view, at) => {
      const { name } = this.#handles[at];
      return [`${name} ${this.#handles.slice(0, at).filter((other) => other.name === name).length}`, view];
    });
  }

  /** Says why something was not done, and puts everything back. */
  refuse(message: string): void {
    this.#views.forEach((view) => view.restore());
    this.#refusal.textContent = message;
    this.#refusal.hidden = false;
  }

  #place(): void {
    const { picture } = this.#chart;
    const { axis } = this.#chart.part();
    const view = this.#chart.view();
    const svg = picture.querySelector('svg');
    const holder = picture.firstElementChild;
    if (view === undefined || axis === undefined || svg === null || !(holder instanceof HTMLElement)) return;
    holder.style.position = 'relative';
    if (this.#element.parentElement !== holder) holder.append(this.#element);
    this.#element.style.width = `${svg.getBoundingClientRect().width}px`;
    const plots = plotsOf(view, axis);
    let row = 0;
    for (const [index, one] of this.#views.entries()) {
      one.place(plots, row % 8);
      row += this.#handles[index].ends.length;
    }
  }
}
