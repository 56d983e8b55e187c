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
  /** How many requests are not answered yet: at most one, and after it that of the value that is written. */
  #waiting = 0;
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

  /** @param chart the one whose handle is moved; none once the value is written, which it shows too, sooner than by the run */
  ask(output: string, literal: Literal, text: string, chart?: DrawnChart): void {
    this.#chart = chart;
    this.#next = { type: 'preview', output, literal, text, seen: this.#inView(), closer: this.#closer() };
    if (this.#waiting === 0 || chart === undefined) this.#send();
  }

  /** Draws what came, and only then asks for the next. */
  async answered(shown: readonly { readonly drawn: DrawnOutput; readonly data: Output }[]): Promise<void> {
    // What is written was asked for after this.
    if (this.#waiting > 1) return void (this.#waiting = 1);
    for (const { drawn, data } of shown) await show(drawn, data, this.#chart);
    this.#settle();
  }

  #inView(): string[] {
    return [...this.#outputs].filter(([root]) => this.#seen.has(root)).map(([, output]) => output);
  }

  #send(): void {
    const next = this.#next;
    this.#next = undefined;
    if (!next?.seen.length) return;
    this.#waiting += 1;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#settle(), patience);
    this.#post(next);
  }

  #settle(): void {
    this.#waiting = 0;
    this.#send();
  }
}
