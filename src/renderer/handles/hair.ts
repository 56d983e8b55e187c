import { element } from '../element.ts';
import { around, type Plot } from './plots.ts';
import { shownIn } from './stretch.ts';

/** Where the cross-hair of a chart stands, and what is read there. */
export interface HairPlace {
  /** In s or Hz; a stretch ends where it was reached. */
  readonly at: number;
  readonly from: number | undefined;
  /** Of the plot's height where that is read at as well. */
  readonly share: number | undefined;
  readonly lines: readonly string[];
  readonly isQuiet: boolean;
}

/** The cross-hair of a chart as it is seen: its line, the other end and what lies between, and the box that says what is read. */
export class Hair {
  readonly slider = element('div', 'washboard-hair');
  readonly box = element('div', 'washboard-says washboard-reading');
  readonly elements: readonly HTMLElement[];
  readonly #across = element('div', 'washboard-across');
  readonly #other = element('div', 'washboard-other');
  readonly #span = element('div', 'washboard-chosen');

  constructor(title: string) {
    const { slider, box } = this;
    box.setAttribute('aria-hidden', 'true');
    slider.tabIndex = 0;
    slider.setAttribute('role', 'slider');
    slider.setAttribute('aria-orientation', 'horizontal');
    slider.setAttribute('aria-label', `Cross-hair, ${title}`);
    slider.setAttribute(
      'aria-description',
      'Arrows move it, with Shift they choose a stretch. Enter offers what can be made of it. Plus and minus look closer and less close, Ctrl with an arrow moves on to the neighbouring stretch, 0 shows all.',
    );
    this.elements = [this.#span, this.#across, this.#other, slider, box];
  }

  focus = (): void => this.slider.focus({ preventScroll: true });
  get hasFocus(): boolean {
    return this.slider === document.activeElement;
  }

  /** @param place undefined while it was not placed */
  show(plots: readonly Plot[], place: HairPlace | undefined): void {
    this.slider.classList.toggle('washboard-placed', place !== undefined);
    for (const one of [this.#other, this.#span]) one.hidden = place?.from === undefined;
    this.#across.hidden = place?.share === undefined;
    this.box.hidden = place === undefined || place.isQuiet;
    const plot = plots.at(0);
    if (plot === undefined) return;
    const { left, top, height } = around(plots);
    const ends = shownIn(plot);
    const rounded = (value: number): string => String(Number(value.toPrecision(6)));
    this.slider.setAttribute('aria-valuemin', rounded(ends.from));
    this.slider.setAttribute('aria-valuemax', rounded(ends.to));
    this.slider.setAttribute('aria-valuenow', rounded(place?.at ?? ends.from));
    this.slider.setAttribute('aria-valuetext', place?.lines.join('; ') ?? 'not placed');
    Object.assign(this.slider.style, { top: `${top}px`, height: `${height}px`, left: `${left}px` });
    if (place !== undefined) this.#put(plots, plot, place);
  }

  #put(plots: readonly Plot[], plot: Plot, { at, from: other, share, lines }: HairPlace): void {
    const { left, top, width, height } = around(plots);
    const inside = (value: number): number => Math.min(left + width, Math.max(left, plot.pixelOf(value)));
    const [here, there] = [inside(at), inside(other ?? at)];
    const [from, to] = [Math.min(here, there), Math.max(here, there)];
    const tall = { top: `${top}px`, height: `${height}px` };
    this.slider.style.left = `${here}px`;
    Object.assign(this.#other.style, { ...tall, left: `${there}px` });
    Object.assign(this.#span.style, { ...tall, left: `${from}px`, width: `${to - from}px` });
    if (share !== undefined)
      Object.assign(this.#across.style, {
        left: `${left}px`,
        width: `${width}px`,
        top: `${top + (1 - share) * height}px`,
      });
    this.box.replaceChildren(...lines.map((line) => element('div', '', line)));
    const onLeft = here > left + width / 2;
    this.box.style.top = `${top + 2}px`;
    this.box.style.left = onLeft ? 'auto' : `${to + 8}px`;
    this.box.style.right = onLeft ? `calc(100% - ${from - 8}px)` : 'auto';
  }
}
