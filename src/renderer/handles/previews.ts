import type { Literal } from '../../charts/handle.ts';
import type { Asked, LookedAt } from '../../charts/handleMessages.ts';
import type { Output } from '../../charts/output.ts';
import type { DrawnChart } from '../chart.ts';
import type { DrawnOutput } from '../output.ts';
import { show } from './update.ts';

type Preview = Extract<Asked, { type: 'preview' }>;

/** ms after which an answer is no longer waited for. */
const patience = 5000;

/** What is moved, shown in the charts that depend on it: one request at a time, the latest value wins. */
export class Previews {
  readonly #post: (message: Asked) => void;
  readonly #closer: () => readonly LookedAt[];
  readonly #outputs = new Map<Element, string>();
  /** By their roots: an output that is drawn anew has another one before the old one is known to be out of view. */
  readonly #seen = new Set<Element>();
  readonly #observer: IntersectionObserver;
  #asked: Preview | undefined;
  #next: Preview | undefined;
  /** The chart whose handle is moved: its own drawing stays until the release. */
  #chart: DrawnChart | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** @param closer tells of which outputs a stretch is looked at */
  constructor(post: (message: Asked) => void, closer: () => readonly LookedAt[]) {
    this.#post = post;
    this.#closer = closer;
    this.#observer = new IntersectionObserver((entries) => {
      for (const { target, isIntersecting } of entries) {
        if (isIntersecting) this.#seen.add(target);
        else this.#seen.delete(target);
      }
    });
  }

  /** Takes an output among those that follow while they are in view. */
  watch(output: string, root: Element): void {
    this.#outputs.set(root, output);
    this.#observer.observe(root);
  }

  forget(root: Element): void {
    this.#seen.delete(root);
    this.#outputs.delete(root);
    this.#observer.unobserve(root);
  }

  ask(output: string, chart: DrawnChart, literal: Literal, text: string): void {
    this.#chart = chart;
    this.#next = { type: 'preview', output, literal, text, seen: this.#inView(), closer: this.#closer() };
    this.#send();
  }

  /** Nothing more is to be shown beforehand: the value is written. */
  end(): void {
    this.#next = undefined;
  }

  /** Draws what came, and only then asks for the next. */
  async answered(shown: readonly { readonly drawn: DrawnOutput; readonly data: Output }[]): Promise<void> {
    for (const { drawn, data } of shown) await show(drawn, data, this.#chart);
    this.#settle();
  }

  #inView(): string[] {
    return [...this.#outputs].filter(([root]) => this.#seen.has(root)).map(([, output]) => output);
  }

  #send(): void {
    if (this.#asked !== undefined || this.#next === undefined) return;
    [this.#asked, this.#next] = [this.#next, undefined];
    this.#timer = setTimeout(() => this.#settle(), patience);
    if (this.#asked.seen.length === 0) this.#settle();
    else this.#post(this.#asked);
  }

  #settle(): void {
    clearTimeout(this.#timer);
    this.#asked = undefined;
    this.#send();
  }
}
