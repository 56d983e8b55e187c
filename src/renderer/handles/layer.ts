import type { Handle } from '../../charts/handle.ts';
import type { DrawnChart } from '../chart.ts';
import { element } from '../element.ts';
import { CloserBar } from './closerBar.ts';
import { Ground, type GroundAsks, type GroundState } from './ground.ts';
import { HandleView, type Pending, type Writer } from './handleView.ts';
import { Legend } from './legend.ts';
import { plotsOf } from './plots.ts';
import { hiddenIn, hide } from './update.ts';

interface HandleState {
  readonly pending: Pending | undefined;
  /** Which end has the focus; -1 for none. */
  readonly focus: number;
}
export interface LayerState {
  readonly handles: ReadonlyMap<string, HandleState>;
  readonly ground: GroundState;
  /** Series that are not shown. */
  readonly hidden: ReadonlySet<string>;
}

/** What a layer asks of the page and the editor. */
export interface LayerAsks extends Writer, GroundAsks {
  link(isLinked: boolean): void;
  isLinked(): boolean;
}

/** What lies over one chart: its handles, its ground and its legend. They stay while the picture below them is drawn anew. */
export class Layer {
  readonly #chart: DrawnChart;
  readonly #element = element('div', 'washboard-layer');
  readonly #unwatch: () => void;
  readonly #views: readonly HandleView[];
  readonly #handles: readonly Handle[];
  readonly #asks: LayerAsks;
  readonly #ground: Ground;
  readonly #legend: Legend;
  readonly #bar: CloserBar;
  /** The view that shows no more than is to be seen. */
  #view: unknown;
  readonly #refusal = element('p', 'washboard-message washboard-warning washboard-refused');

  constructor(chart: DrawnChart, handles: readonly Handle[], asks: LayerAsks) {
    this.#chart = chart;
    this.#asks = asks;
    this.#handles = handles.filter(({ axis }) => axis === chart.part().axis?.quantity);
    this.#views = this.#handles.map((handle) => new HandleView(handle, asks, this.#element));
    this.#ground = new Ground(chart, asks);
    this.#legend = new Legend(chart);
    const bar = {
      showAll: () => asks.look(undefined),
      leaf: (way: 1 | -1) => this.#ground.leaf(way),
      link: (isLinked: boolean) => asks.link(isLinked),
    };
    this.#bar = new CloserBar(bar, asks.menus.said);
    const moved = element('div', '', ...this.#views.map((view) => view.element));
    moved.setAttribute('role', 'group');
    moved.setAttribute('aria-label', 'What can be moved');
    this.#element.append(this.#legend.element, this.#ground.element, ...(this.#views.length === 0 ? [] : [moved]));
    chart.element.append(this.#bar.element);
    this.looked();
    this.#refusal.setAttribute('role', 'status');
    this.#refusal.hidden = true;
    chart.picture.after(this.#refusal);
    this.#unwatch = chart.watch(() => this.#place());
    this.#place();
  }

  dispose(): void {
    this.#unwatch();
    this.#views.forEach((view) => view.dispose());
    this.#ground.dispose();
    this.#bar.element.remove();
    this.#element.remove();
    this.#refusal.remove();
  }

  /** What its reader is about, to be gone on with in another drawing of the chart. */
  get state(): LayerState {
    const handles = this.#named().map(([name, view]): readonly [string, HandleState] => [
      name,
      { pending: view.pending, focus: view.sliders.findIndex((slider) => slider === document.activeElement) },
    ]);
    return { handles: new Map(handles), ground: this.#ground.state, hidden: hiddenIn(this.#chart) };
  }

  /** Goes on where an earlier drawing of the chart was left. */
  resume({ handles, ground, hidden }: LayerState): void {
    if (hidden.size > 0) void hide(this.#chart, hidden);
    this.#ground.resume(ground);
    for (const [name, view] of this.#named()) {
      const { pending, focus = -1 } = handles.get(name) ?? {};
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

  /** Says which stretch is looked at by now. */
  looked(): void {
    this.#bar.show(this.#asks.over(), this.#asks.isLinked());
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
    if (view === undefined || axis === undefined || svg === null) return;
    // Beside the drawing, for nothing within a picture is told to assistive technology.
    if (this.#element.parentElement !== picture) picture.append(this.#element);
    this.#element.style.width = `${svg.getBoundingClientRect().width}px`;
    const plots = plotsOf(view, axis);
    this.#ground.place(plots);
    this.#legend.place(this.#element.getBoundingClientRect());
    const hidden = hiddenIn(this.#chart);
    // A view that was made anew shows everything.
    if (this.#view !== undefined && this.#view !== view && hidden.size > 0) void hide(this.#chart, hidden);
    this.#view = view;
    let row = 0;
    for (const [index, one] of this.#views.entries()) {
      one.place(plots, row % 8);
      row += this.#handles[index].ends.length;
    }
  }
}
