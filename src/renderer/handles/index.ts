import type { RendererContext } from 'vscode-notebook-renderer';
import type { Literal } from '../../charts/handle.ts';
import type { Asked, Told } from '../../charts/handleMessages.ts';
import type { AxisRange } from '../../charts/making.ts';
import type { DrawnChart } from '../chart.ts';
import { isOutput } from '../isOutput.ts';
import type { DrawnOutput } from '../output.ts';
import type { Menus } from './choices.ts';
import { Closer, type Target } from './closer.ts';
import { Layer, type LayerAsks, type LayerState } from './layer.ts';
import { Previews } from './previews.ts';
import { addHandleStyle } from './style.ts';
import { show, shownBy } from './update.ts';

interface Attached {
  /** The editor's id of the output. */
  readonly output: string;
  readonly drawn: DrawnOutput;
  readonly layers: readonly Layer[];
}

/** The handles of all outputs on the page, and the way to the editor. */
export class Handled {
  readonly #post: (message: Asked) => void;
  readonly #attached = new Map<string, Attached>();
  /** Of outputs that are drawn anew what their readers were about. */
  readonly #states = new Map<string, readonly LayerState[]>();
  readonly #previews: Previews;
  readonly #closer: Closer;
  readonly #menus: Menus;

  constructor(context: RendererContext<unknown>, menus: Menus) {
    this.#menus = menus;
    this.#post = (message) => context.postMessage?.(message);
    this.#closer = new Closer(context, () => this.#targets());
    this.#previews = new Previews(this.#post, this.#closer.list);
    context.onDidReceiveMessage?.((message: Told) => this.#hear(message));
    addHandleStyle();
  }

  /** Lays the handles over an output's charts. @param id the editor's id of the item @param output that of the output */
  attach(id: string, output: string, drawn: DrawnOutput): void {
    const handles = shownBy(drawn)?.handles ?? [];
    this.#closer.drawnWhole(id);
    const layers = drawn.charts
      .filter((chart) => chart.part().axis !== undefined)
      .map((chart) => new Layer(chart, handles, this.#asks(id, output, chart, drawn)));
    this.#attached.set(id, { output, drawn, layers });
    this.#previews.watch(output, drawn.root);
    const states = this.#states.get(id) ?? [];
    this.#states.delete(id);
    void drawn.ready.then(() => {
      states.forEach((state, index) => layers.at(index)?.resume(state));
      this.#closer.again(id);
    });
  }

  /** Shows what an item holds by now in the views that it has; false if it has none, or they don't fit. */
  async update(id: string, output: string, container: HTMLElement, next: unknown): Promise<boolean> {
    const attached = this.#attached.get(id);
    if (attached === undefined || !container.contains(attached.drawn.root) || !isOutput(next)) return false;
    const { drawn } = attached;
    if (!(await show(drawn, next))) return false;
    // It may have been taken away meanwhile.
    if (this.#attached.get(id) !== attached) return true;
    this.forget(id);
    this.attach(id, output, drawn);
    return true;
  }

  /** To be called before an output is drawn anew or taken away. */
  forget(id: string): void {
    const attached = this.#attached.get(id);
    if (attached === undefined) return;
    this.#attached.delete(id);
    this.#previews.forget(attached.drawn.root);
    this.#states.set(
      id,
      attached.layers.map(({ state }) => state),
    );
    attached.layers.forEach((layer) => layer.dispose());
  }

  /** The outputs whose charts can be looked at closer. */
  #targets(): Target[] {
    return [...this.#attached].flatMap(([item, { output, drawn, layers }]) => {
      const statement = shownBy(drawn)?.statement;
      const axes = drawn.charts.flatMap((chart) => chart.part().axis?.quantity ?? []);
      const changed = (): void => layers.forEach((layer) => layer.looked());
      return statement === undefined ? [] : [{ item, output, statement, axes, changed }];
    });
  }

  #asks(item: string, output: string, chart: DrawnChart, drawn: DrawnOutput): LayerAsks {
    const axis = (): AxisRange['axis'] => chart.part().axis!.quantity;
    return {
      menus: this.#menus,
      makings: () => shownBy(drawn)?.makings ?? [],
      make: (choice) => {
        const statement = shownBy(drawn)?.statement;
        if (statement !== undefined) this.#post({ type: 'make', output, statement, choice });
      },
      over: () => this.#closer.over(item, axis()),
      isCloser: () => this.#closer.isShown(item, axis()),
      look: (over) => this.#closer.look(item, axis(), over),
      link: (isLinked) => this.#closer.link(isLinked, item),
      isLinked: () => this.#closer.isLinked,
      preview: (literal: Literal, text: string) => this.#previews.ask(output, literal, text, chart),
      move: (literal: Literal, text: string) => {
        this.#previews.ask(output, literal, text);
        this.#post({ type: 'move', output, literal, text });
      },
      history: (type: 'undo' | 'redo') => this.#post({ type, output }),
    };
  }

  /** Draws what came of a closer look, in the views that are there. */
  async #looked(shown: Extract<Told, { readonly shown: unknown }>['shown']): Promise<void> {
    for (const { output, data } of shown) {
      const found = [...this.#attached.values()].find((one) => one.output === output);
      if (found === undefined) continue;
      const drawing = show(found.drawn, data);
      // Said before it is drawn: whoever follows the drawing asks.
      this.#closer.answered(output);
      if (!(await drawing)) this.#closer.failed(output);
    }
    this.#closer.settle();
  }

  #hear(message: Told): void {
    const all = [...this.#attached.values()];
    if (message.type === 'previewed') {
      void this.#previews.answered(
        message.shown.flatMap(({ output, data }) => {
          const found = all.find((one) => one.output === output);
          return found === undefined ? [] : [{ drawn: found.drawn, data }];
        }),
      );
      return;
    }
    if (message.type === 'closer') void this.#looked(message.shown);
    if (message.type !== 'refused') return;
    this.#closer.settle();
    for (const { output, layers } of all)
      if (output === message.output) layers.forEach((layer) => layer.refuse(message.message));
  }
}
