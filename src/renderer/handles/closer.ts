import type { RendererContext } from 'vscode-notebook-renderer';
import type { Asked, LookedAt } from '../../charts/handleMessages.ts';
import type { AxisRange, StatementAt } from '../../charts/making.ts';

/** An output on the page whose charts can be looked at closer. */
export interface Target {
  readonly item: string;
  readonly output: string;
  readonly statement: StatementAt;
  readonly axes: readonly AxisRange['axis'][];
  /** To be called when the stretch that it is to show has changed. */
  readonly changed: () => void;
}

/** ms after which an answer is no longer waited for. */
const patience = 5000;

/** Which stretch of its axis each output is looked at: the reader's own view, of which nothing is written. One request at a time, the latest stretch wins. */
export class Closer {
  readonly #context: RendererContext<unknown>;
  readonly #targets: () => readonly Target[];
  readonly #over = new Map<string, AxisRange>();
  /** Items whose charts show a stretch at the moment, and of which axis. */
  readonly #shown = new Map<string, AxisRange['axis']>();
  readonly #next = new Set<string>();
  #asked: readonly Target[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(context: RendererContext<unknown>, targets: () => readonly Target[]) {
    this.#context = context;
    this.#targets = targets;
  }

  /** The stretch that an item is to show of an axis; undefined for all of it. */
  over(item: string, axis: AxisRange['axis']): AxisRange | undefined {
    const over = this.#over.get(item);
    return over?.axis === axis ? over : undefined;
  }

  /** Whether what an item shows of an axis at the moment is no more than a stretch. */
  isShown = (item: string, axis: AxisRange['axis']): boolean => this.#shown.get(item) === axis;

  /** An item was drawn with all of its axes. */
  drawnWhole(item: string): void {
    this.#shown.delete(item);
  }

  /** Whether charts over one axis are looked at together. */
  get isLinked(): boolean {
    return (this.#context.getState() as { readonly linked?: unknown } | undefined)?.linked === true;
  }

  link(isLinked: boolean, item: string): void {
    this.#context.setState({ linked: isLinked });
    const over = this.#over.get(item);
    if (isLinked && over !== undefined) this.look(item, over.axis, over);
    for (const { changed } of this.#targets()) changed();
  }

  /** Looks at a stretch of an item's axis, or at all of it; so do the others over that axis where they are linked. */
  look(item: string, axis: AxisRange['axis'], over: AxisRange | undefined): void {
    const isLinked = this.isLinked;
    for (const target of this.#targets()) {
      if (target.item !== item && !(isLinked && target.axes.includes(axis))) continue;
      if (over === undefined) this.#over.delete(target.item);
      else this.#over.set(target.item, over);
      this.#next.add(target.item);
      target.changed();
    }
    this.#send();
  }

  /** Has an item that was drawn anew show its stretch again. */
  again(item: string): void {
    if (!this.#over.has(item)) return;
    this.#next.add(item);
    this.#send();
  }

  /** The editor has answered for an output, whose charts show it from now on. */
  answered(output: string): void {
    for (const { item } of this.#asked.filter((target) => target.output === output)) {
      const over = this.#over.get(item);
      if (over === undefined) this.#shown.delete(item);
      else this.#shown.set(item, over.axis);
    }
    this.#asked = this.#asked.filter((target) => target.output !== output);
  }

  /** What the editor answered for an output could not be drawn in its place, as of a stretch in which there is nothing. */
  failed(output: string): void {
    this.#giveUp(this.#targets().filter((target) => target.output === output));
  }

  #giveUp(targets: readonly Target[]): void {
    for (const { item, changed } of targets) {
      if (this.#next.has(item)) continue;
      this.#over.delete(item);
      this.#shown.delete(item);
      changed();
    }
  }

  /** All of an answer has come, or none will: what could not be shown is not looked at any more. */
  settle(): void {
    clearTimeout(this.#timer);
    this.#giveUp(this.#asked);
    this.#asked = [];
    this.#send();
  }

  /** All outputs of which a stretch is looked at. */
  list = (): LookedAt[] => this.#targets().flatMap((target) => this.#wanted(target).filter(({ over }) => over));

  #wanted({ item, output, statement }: Target): LookedAt[] {
    const over = this.#over.get(item);
    return [{ output, statement, ...(over === undefined ? {} : { over }) }];
  }

  #send(): void {
    if (this.#asked.length > 0 || this.#next.size === 0) return;
    this.#asked = this.#targets().filter(({ item }) => this.#next.has(item));
    this.#next.clear();
    const first = this.#asked.at(0);
    if (first === undefined) return;
    this.#timer = setTimeout(() => this.settle(), patience);
    const wanted = this.#asked.flatMap((target) => this.#wanted(target));
    this.#context.postMessage?.({ type: 'closer', output: first.output, wanted } satisfies Asked);
  }
}
