import type { ChartPart } from '../charts/output.ts';
import { roleSignals, withTheme, type Theme } from '../charts/theme.ts';
import { element } from './element.ts';
import { createView, type View } from './slimVega.ts';
import { tooltipBox } from './tooltip.ts';

/** A chart on the page. */
export interface DrawnChart {
  readonly part: ChartPart;
  readonly element: HTMLElement;
  /** What holds the drawing. */
  readonly picture: HTMLElement;
  /** Vega's view, once it is made. */
  view(): View | undefined;
  /** Calls back whenever it has been drawn, in whatever size. */
  watch(drawn: () => void): void;
  /** Settles when it has been drawn, or when the reason why not stands in its place. */
  readonly ready: Promise<void>;
  retheme(theme: Theme): void;
  dispose(): void;
}

const widest = 1100;
const narrowest = 280;

/** Holds the chart's height free, draws it, and keeps it as wide as its place. */
export function drawChart(part: ChartPart, theme: Theme): DrawnChart {
  const { figure, picture } = emptyFigure(part);
  const tooltip = tooltipBox(figure);
  // A chart may lack a role that it does not use.
  const roles = new Set((part.vega['signals'] as readonly { name: string }[]).map(({ name }) => name));
  let view: View | undefined;
  let current = theme;
  let disposed = false;
  const watchers: (() => void)[] = [];
  const drawnAgain = (): void => watchers.forEach((watcher) => watcher());

  const draw = async (): Promise<void> => {
    try {
      const holder = element('div', '');
      picture.replaceChildren(holder);
      const made = createView(withTheme(part.vega, current), holder, tooltip.show);
      view = made;
      await fit(made, figure);
      // The room was kept only until the picture stood there.
      picture.style.minHeight = '';
      drawnAgain();
    } catch (error) {
      if (!disposed) picture.replaceChildren(notDrawn(part, error));
    }
  };
  const resize = observeWidth(figure, () => {
    if (view !== undefined) void fit(view, figure).then(drawnAgain);
  });
  return {
    part,
    element: figure,
    picture,
    view: () => view,
    watch: (watcher) => watchers.push(watcher),
    ready: draw(),
    retheme(next) {
      const font = next.font !== current.font;
      current = next;
      if (view === undefined) return;
      if (font) {
        picture.style.minHeight = `${picture.clientHeight}px`;
        view.finalize();
        void draw();
        return;
      }
      for (const [name, value] of Object.entries(roleSignals(next))) if (roles.has(name)) view.signal(name, value);
      void view.runAsync();
    },
    dispose() {
      disposed = true;
      resize.disconnect();
      tooltip.remove();
      view?.finalize();
      view = undefined;
    },
  };
}

/** A chart's title and words, and the free place for its picture between them. */
function emptyFigure({ title, subtitle, description, height }: ChartPart): {
  figure: HTMLElement;
  picture: HTMLElement;
} {
  const picture = element('div', 'washboard-picture');
  picture.setAttribute('role', 'img');
  picture.setAttribute('aria-label', `${title}. ${description}`);
  picture.tabIndex = 0;
  picture.style.minHeight = `${height}px`;
  const words = element(
    'details',
    'washboard-words',
    element('summary', '', 'The chart in words'),
    element('p', '', description),
  );
  const caption = element('figcaption', 'washboard-title', element('strong', '', title));
  if (subtitle !== '') caption.append(element('span', 'washboard-subtitle', subtitle));
  return { figure: element('figure', 'washboard-chart', caption, picture, words), picture };
}

/** As wide as the place allows; a second pass takes back what labels stand over. */
async function fit(view: View, place: HTMLElement): Promise<void> {
  const room = Math.floor(place.clientWidth);
  if (room === 0) {
    await view.runAsync();
    return;
  }
  const width = Math.min(widest, Math.max(narrowest, room));
  await view.signal('chartWidth', width).runAsync();
  const drawn = place.querySelector('svg')?.getBoundingClientRect().width ?? width;
  if (drawn > width + 1) await view.signal('chartWidth', 2 * width - Math.ceil(drawn)).runAsync();
}

/** Calls back when the width has changed, once a frame at most. */
function observeWidth(place: HTMLElement, changed: () => void): ResizeObserver {
  let width = place.clientWidth;
  let frame = 0;
  const observer = new ResizeObserver(() => {
    if (place.clientWidth === width || place.clientWidth === 0) return;
    width = place.clientWidth;
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(changed);
  });
  observer.observe(place);
  return observer;
}

function notDrawn(part: ChartPart, error: unknown): HTMLElement {
  const reason = error instanceof Error ? error.message : String(error);
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
