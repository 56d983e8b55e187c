import type { RendererContext } from 'vscode-notebook-renderer';
import type { Asked, StaleMark, Told } from '../charts/handleMessages.ts';
import { element } from './element.ts';
import { said } from './words.ts';

/** Pause before the editor is asked of what has been drawn, in ms: much is drawn at once. */
const pause = 50;

/** An output on the page. */
interface Drawn {
  /** The id that the editor gave it. */
  readonly output: string;
  readonly root: HTMLElement;
}

/** Dims the outputs that are out of date, with the reason and a way to run their cell. */
export class StaleOutputs {
  readonly #post: (message: Asked) => void;
  /** By item. */
  readonly #drawn = new Map<string, Drawn>();
  #new: string[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(context: RendererContext<unknown>) {
    this.#post = (message) => context.postMessage?.(message);
    context.onDidReceiveMessage?.((message: Told) => {
      if (message.type === 'stale') this.#hear(message.marks);
    });
  }

  /** Follows an output from now on; what its place said of another one is taken away. */
  add(item: string, output: string, root: HTMLElement): void {
    if (this.#drawn.get(item)?.output === output && this.#drawn.get(item)?.root === root) return;
    this.#drawn.set(item, { output, root });
    unmark(root);
    this.#new.push(output);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#post({ type: 'shown', outputs: this.#new });
      this.#new = [];
    }, pause);
  }

  forget(item: string): void {
    this.#drawn.delete(item);
  }

  /** @param marks all that are out of date */
  #hear(marks: readonly StaleMark[]): void {
    const reasons = new Map(marks.map(({ output, why }) => [output, why]));
    for (const { output, root } of this.#drawn.values()) {
      const why = reasons.get(output);
      if (why === undefined) unmark(root);
      else mark(root, why, () => this.#post({ type: 'run', output }));
    }
  }
}

function unmark(root: HTMLElement): void {
  root.classList.remove('washboard-stale');
  root.querySelector(':scope > .washboard-why')?.remove();
}

function mark(root: HTMLElement, why: string, run: () => void): void {
  const standing = root.querySelector(':scope > .washboard-why > span');
  root.classList.add('washboard-stale');
  if (standing?.textContent === why || why === '') return;
  standing?.parentElement?.remove();
  const button = element('button', 'washboard-button', said('Run'));
  button.type = 'button';
  button.addEventListener('click', run);
  const line = element('p', 'washboard-why', element('span', '', why), button);
  line.setAttribute('role', 'status');
  root.prepend(line);
}
