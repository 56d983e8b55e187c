import type { ChartPart } from '../charts/output.ts';
import { roleSignals, withTheme, type Theme } from '../charts/theme.ts';
import { withDomains } from './domains.ts';
import { element } from './element.ts';
import { chartMenu } from './taking/takes.ts';
import { createView, type View } from './slimVega.ts';
import { tooltipBox } from './tooltip.ts';
import { reasonOfException } from '../result/environment.ts';

/** A chart on the page. */
export interface DrawnChart {
  /** What it shows at the moment. */
  part(): ChartPart;
  readonly element: HTMLElement;
  /** What holds the drawing, and what lies over it. */
  readonly picture: HTMLElement;
  /** Vega's view, once it is made. */
  view(): View | undefined;
  /** Calls back whenever it has been drawn, in whatever size; gives the way to stop. */
  watch(drawn: () => void): () => void;
  /** Shows another chart: in its view, after `refresh` has given that the new data, or in a view made anew. */
  show(part: ChartPart, refresh: ((view: View) => void) | undefined): Promise<void>;
  /** Settles when it has been drawn, or when the reason why not stands in its place. */
  readonly ready: Promise<void>;
  retheme(theme: Theme): void;
  dispose(): void;
}

const widest = 1100;
const narrowest = 280;

/** Holds the chart's height free, draws it, and keeps it as wide as its place. */
export const drawChart = (part: ChartPart, theme: Theme): DrawnChart => new Drawing(part, theme);

class Drawing implements DrawnChart {
  readonly element: HTMLElement;
  readonly picture: HTMLElement;
  readonly ready: Promise<void>;
  readonly #say: (part: ChartPart) => void;
  readonly #tooltip: ReturnType<typeof tooltipBox>;
  readonly #resize: ResizeObserver;
  readonly #watchers = new Set<() => void>();
  #part: ChartPart;
  #theme: Theme;
  #view: View | undefined;
  /** The one whose drawing stands in the picture. */
  #shown: View | undefined;
  /** What stands in the picture: a drawing, or why there is none. What lies over it stays, and keeps the focus. */
  #standing: HTMLElement | undefined;
  #disposed = false;

  constructor(part: ChartPart, theme: Theme) {
    const { figure, picture, say } = emptyFigure(part);
    [this.#part, this.#theme, this.element, this.picture, this.#say] = [part, theme, figure, picture, say];
    this.#tooltip = tooltipBox(figure);
    this.#resize = observeWidth(figure, () => {
      if (this.#view !== undefined) void this.#fit(this.#view, picture);
    });
    this.ready = this.#draw();
  }

  part = (): ChartPart => this.#part;
  view = (): View | undefined => this.#view;

  watch(watcher: () => void): () => void {
    this.#watchers.add(watcher);
    return () => this.#watchers.delete(watcher);
  }

  async show(next: ChartPart, refresh: ((view: View) => void) | undefined): Promise<void> {
    this.#part = next;
    this.#say(next);
    if (this.#view === undefined || refresh === undefined) return this.#draw();
    refresh(this.#view);
    await this.#fit(this.#view, this.picture);
  }

  retheme(next: Theme): void {
    const font = next.font !== this.#theme.font;
    this.#theme = next;
    if (this.#view === undefined) return;
    if (font) {
      void this.#draw();
      return;
    }
    // A chart may lack a role that it does not use.
    const roles = new Set((this.#part.vega['signals'] as readonly { name: string }[]).map(({ name }) => name));
    for (const [name, value] of Object.entries(roleSignals(next))) if (roles.has(name)) this.#view.signal(name, value);
    void this.#view.runAsync();
  }

  dispose(): void {
    this.#disposed = true;
    this.#resize.disconnect();
    this.#tooltip.remove();
    this.#view?.finalize();
    this.#shown?.finalize();
    this.#view = this.#shown = undefined;
  }

  async #draw(): Promise<void> {
    const holder = element('div', drawingClass);
    try {
      if (this.#standing === undefined) this.#stand(holder);
      else {
        // What stood there stays until the next one is drawn.
        holder.classList.add('washboard-coming');
        this.#standing.after(holder);
      }
      const made = createView(withDomains(withTheme(this.#part.vega, this.#theme)), holder, this.#tooltip.show);
      this.#view = made;
      becomePicture(holder, this.#part);
      await fit(made, this.element, holder);
      // Another one may have been asked for since.
      if (this.#view !== made) {
        made.finalize();
        if (this.#standing !== holder) holder.remove();
        return;
      }
      this.#shown?.finalize();
      holder.className = drawingClass;
      this.#stand(holder);
      this.#shown = made;
      // The room was kept only until the picture stood there.
      this.picture.style.minHeight = '';
      this.#drawn();
    } catch (error) {
      if (this.#standing !== holder) holder.remove();
      if (!this.#disposed) this.#stand(notDrawn(this.#part, error));
    }
  }

  #stand(next: HTMLElement): void {
    if (this.#standing === next) return;
    if (this.#standing === undefined) this.picture.prepend(next);
    else this.#standing.after(next);
    this.#standing?.remove();
    this.#standing = next;
  }

  async #fit(view: View, holder: HTMLElement): Promise<void> {
    await fit(view, this.element, holder);
    this.#drawn();
  }

  #drawn(): void {
    for (const watcher of this.#watchers) watcher();
  }
}

/** A chart's title and words, and the free place for its picture between them. */
function emptyFigure(part: ChartPart): {
  figure: HTMLElement;
  picture: HTMLElement;
  say: (part: ChartPart) => void;
} {
  const picture = element('div', 'washboard-picture');
  picture.style.minHeight = `${part.height}px`;
  const wordsText = element('p', '');
  const words = element('details', 'washboard-words', element('summary', '', 'The chart in words'), wordsText);
  const caption = element('figcaption', 'washboard-title');
  const say = (next: ChartPart): void => {
    const { title, subtitle, description } = next;
    picture.querySelector(`.${drawingClass}`)?.setAttribute('aria-label', nameOf(next));
    wordsText.textContent = description;
    caption.replaceChildren(
      element('strong', '', title),
      ...(subtitle === '' ? [] : [element('span', 'washboard-subtitle', subtitle)]),
    );
  };
  say(part);
  return { figure: element('figure', 'washboard-chart', caption, picture, words, chartMenu(part.title)), picture, say };
}

const drawingClass = 'washboard-drawing';
const nameOf = ({ title, description }: ChartPart): string => `${title}. ${description}`;

/** Makes of a view's place, which Vega calls otherwise, one picture with its words for assistive technology; what lies over it stands beside. */
function becomePicture(holder: HTMLElement, part: ChartPart): void {
  holder.setAttribute('role', 'img');
  holder.removeAttribute('aria-roledescription');
  holder.setAttribute('aria-label', nameOf(part));
  holder.tabIndex = 0;
}

/** As wide as the place allows; a second pass takes back what labels stand over. */
async function fit(view: View, container: HTMLElement, holder: HTMLElement): Promise<void> {
  const room = Math.floor(container.clientWidth);
  if (room === 0) {
    await view.runAsync();
    return;
  }
  const width = Math.min(widest, Math.max(narrowest, room));
  await view.signal('chartWidth', width).runAsync();
  const drawn = holder.querySelector('svg')?.getBoundingClientRect().width ?? width;
  if (drawn > width + 1) await view.signal('chartWidth', 2 * width - Math.ceil(drawn)).runAsync();
}

/** Calls back when the width has changed, once a frame at most. */
function observeWidth(container: HTMLElement, changed: () => void): ResizeObserver {
  let width = container.clientWidth;
  let frame = 0;
  const observer = new ResizeObserver(() => {
    if (container.clientWidth === width || container.clientWidth === 0) return;
    width = container.clientWidth;
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(changed);
  });
  observer.observe(container);
  return observer;
}

function notDrawn(part: ChartPart, error: unknown): HTMLElement {
  const reason = reasonOfException(error);
  return element(
    'div',
    'washboard-message washboard-error',
    element('strong', '', 'This chart could not be drawn: '),
    `${reason}. `,
    element(
      'details',
      '',
      element('summary', '', 'Its specification'),
      element('pre', '', JSON.stringify(part.vega, undefined, 1).slice(0, 20000)),
    ),
  );
}
