import type { RendererContext } from 'vscode-notebook-renderer';
import type { Literal } from '../../charts/handle.ts';
import type { Asked, Told } from '../../charts/handleMessages.ts';
import type { DrawnOutput } from '../output.ts';
import { Layer, type LayerState } from './layer.ts';
import { addHandleStyle } from './style.ts';

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

  constructor(context: RendererContext<unknown>) {
    this.#post = (message) => context.postMessage?.(message);
    context.onDidReceiveMessage?.((message: Told) => this.#hear(message));
    addHandleStyle();
  }

  /** Lays the handles over an output's charts. @param id the editor's id of the item @param output that of the output */
  attach(id: string, output: string, drawn: DrawnOutput): void {
    const writer = {
      preview: () => undefined,
      move: (literal: Literal, text: string) => this.#post({ type: 'move', output, literal, text }),
      history: (type: 'undo' | 'redo') => this.#post({ type, output }),
    };
    const layers = drawn.charts
      .filter(({ part }) => part.axis !== undefined)
      .map((chart) => new Layer(chart, drawn.handles, writer));
    this.#attached.set(id, { output, drawn, layers });
    const states = this.#states.get(id) ?? [];
    this.#states.delete(id);
    void drawn.ready.then(() => states.forEach((state, index) => layers.at(index)?.resume(state)));
  }

  /** To be called before an output is drawn anew or taken away. */
  forget(id: string): void {
    const attached = this.#attached.get(id);
    if (attached === undefined) return;
    this.#attached.delete(id);
    this.#states.set(
      id,
      attached.layers.map(({ state }) => state),
    );
    attached.layers.forEach((layer) => layer.dispose());
  }

  #hear(message: Told): void {
    for (const { output, layers } of this.#attached.values())
      if (output === message.output && message.type === 'refused')
        layers.forEach((layer) => layer.refuse(message.message));
  }
}
