import type { AxisRange, Choice, Made, Making } from '../../charts/making.ts';
import type { DrawnChart } from '../chart.ts';
import { element } from '../element.ts';
import type { MenuItem } from '../taking/menu.ts';
import { Choices, offered } from './choices.ts';
import { listenToHair, listenToPicture } from './groundEvents.ts';
import { around, type Plot } from './plots.ts';
import { curvesOf, differenceText, nearest, placeText, valueText, type Curve } from './readings.ts';
import { hiddenIn } from './update.ts';

/** What the ground of a chart asks of the page and the editor. */
export interface GroundAsks {
  makings(): readonly Making[];
  make(choice: Choice): void;
  /** The stretch that the chart is to show, and whether what it shows is one. */
  over(): AxisRange | undefined;
  isCloser(): boolean;
  look(over: AxisRange | undefined): void;
  history(which: 'undo' | 'redo'): void;
}

/** Where its reader is: the place that moves, and the other end of a stretch. */
export interface GroundState {
  readonly at: number | undefined;
  readonly from: number | undefined;
  readonly set: number;
  readonly hasFocus: boolean;
}

/** The reading box has so many lines at most. */
const mostLines = 12;

/** The plots of a chart behind its handles: a cross-hair that reads all curves, a stretch that can be chosen, and the closer look. */
export class Ground {
  readonly element = element('div', 'washboard-ground');
  readonly #chart: DrawnChart;
  readonly #asks: GroundAsks;
  readonly #hair = element('div', 'washboard-hair');
  readonly #other = element('div', 'washboard-other');
  readonly #span = element('div', 'washboard-chosen');
  readonly #box = element('div', 'washboard-says washboard-reading');
  readonly #choices: Choices;
  readonly #unlisten: () => void;
  #plots: readonly Plot[] = [];
  #curves: readonly Curve[] = [];
  #part: unknown;
  #at: number | undefined;
  #from: number | undefined;
  #set = 0;
  /** The whole axis, and how far a wheel went since the chart was drawn. */
  #whole: readonly [number, number] | undefined;
  #turned = 1;

  constructor(chart: DrawnChart, asks: GroundAsks) {
    this.#chart = chart;
    this.#asks = asks;
    this.#box.setAttribute('aria-hidden', 'true');
    const hair = this.#hair;
    hair.tabIndex = 0;
    hair.setAttribute('role', 'slider');
    hair.setAttribute('aria-orientation', 'horizontal');
    hair.setAttribute('aria-label', `Cross-hair, ${chart.part().title}`);
    hair.setAttribute(
      'aria-description',
      'Arrows move it, with Shift they choose a stretch. Enter offers what can be made of it. Plus and minus look closer and less close, 0 shows all.',
    );
    this.element.append(this.#span, this.#other, hair, this.#box);
    this.#choices = new Choices(chart.element, () => hair.focus({ preventScroll: true }));
    listenToHair(hair, this);
    this.#unlisten = listenToPicture(chart.picture, this.element, this);
    this.#show();
  }

  /** Follows what is drawn. */
  place(plots: readonly Plot[]): void {
    this.#plots = plots;
    this.#turned = 1;
    const part = this.#chart.part();
    if (this.#part !== part) this.#curves = curvesOf(part);
    this.#part = part;
    const first = plots.at(0);
    if (first !== undefined && !this.#asks.isCloser()) this.#whole = edgesOf(first);
    this.element.hidden = first === undefined || this.#curves.length === 0;
    this.#show();
  }

  dispose(): void {
    this.#unlisten();
    this.#choices.remove();
  }

  get state(): GroundState {
    return { at: this.#at, from: this.#from, set: this.#set, hasFocus: this.#hair === document.activeElement };
  }

  resume({ at, from, set, hasFocus }: GroundState): void {
    [this.#at, this.#from, this.#set] = [at, from, set];
    if (hasFocus) this.#hair.focus({ preventScroll: true });
    this.#show();
  }

  /** The plot at a place of the picture, if it can be read. */
  plotAt(x: number, y: number): Plot | undefined {
    if (this.element.hidden) return undefined;
    return this.#plots.find(
      ({ left, top, width, height }) => x >= left && x <= left + width && y >= top && y <= top + height,
    );
  }

  /** Whether the cross-hair alone stands at a pixel. */
  isAt(pixel: number): boolean {
    return this.#at !== undefined && this.#from === undefined && Math.abs(this.#pixel(this.#at) - pixel) <= 5;
  }

  /** Puts the cross-hair to a pixel of a plot; with `from` it chooses the stretch between. */
  point(pixel: number, plot: Plot, from?: number): void {
    this.#choices.close();
    const clamped = Math.min(plot.left + plot.width, Math.max(plot.left, pixel));
    this.#set = plot.set;
    // A stretch may end at either edge, where no sample stands.
    this.#from = from === undefined ? undefined : plot.valueAt(Math.max(plot.left, from));
    this.#at = from === undefined ? this.#snapped(plot.valueAt(clamped)) : plot.valueAt(clamped);
    this.#show();
  }

  /** Chooses the stretch from where the cross-hair is to a pixel. */
  extend(pixel: number, plot: Plot): void {
    if (this.#at === undefined) return this.point(pixel, plot);
    this.#from ??= this.#at;
    this.#at = this.#snapped(plot.valueAt(pixel));
    this.#show();
  }

  /** By so many samples of what is drawn. */
  step(samples: number, extends_: boolean): void {
    const at = this.#begin(extends_);
    const places = this.#curves.at(0)?.at;
    if (at === undefined || places === undefined) return;
    const [least, most] = this.#inView();
    const index = Math.min(most, Math.max(least, nearest(places, at) + samples));
    this.#at = places[index];
    this.#show();
  }

  /** To the first or last sample in view. */
  reach(edge: 'least' | 'most', extends_: boolean): void {
    this.#begin(extends_);
    const [least, most] = this.#inView();
    this.#at = this.#curves.at(0)?.at[edge === 'least' ? least : most];
    this.#show();
  }

  /** Takes the stretch back, then the cross-hair; tells whether there was either. */
  clear(): boolean {
    if (this.#at === undefined) return false;
    this.#choices.close();
    if (this.#from === undefined) this.#at = undefined;
    this.#from = undefined;
    this.#show();
    return true;
  }

  show(): void {
    if (this.#at === undefined) this.#begin(false);
    this.#show();
  }

  /** Shows what can be made of the stretch or the place. */
  offer(): void {
    if (this.#at === undefined || this.#plots.length === 0) return;
    const { left, top } = this.#chart.element.getBoundingClientRect();
    const own = this.element.getBoundingClientRect();
    const at = { left: own.left - left + this.#pixel(this.#at) + 6, top: own.top - top + around(this.#plots).top + 6 };
    this.#choices.open(this.#aboutText(), this.#items(), at, this.#chart.element.clientWidth);
    this.#box.hidden = true;
  }

  /** Looks so many times closer about a pixel, or about the cross-hair. */
  zoom(times: number, pixel?: number): void {
    const plot = this.#plots.at(0);
    if (plot === undefined || this.element.hidden) return;
    this.#turned *= times;
    const about = pixel ?? (this.#at === undefined ? plot.left + plot.width / 2 : this.#pixel(this.#at));
    const edge = (px: number): number => plot.valueAt(about + (px - about) / this.#turned);
    this.#look(edge(plot.left), edge(plot.left + plot.width));
  }

  showAll(): void {
    this.#asks.look(undefined);
  }

  history(which: 'undo' | 'redo'): void {
    this.#asks.history(which);
  }

  #look(from: number, to: number): void {
    const axis = this.#axis();
    if (this.#whole === undefined || axis === undefined) return;
    const [least, most] = this.#whole;
    const over = {
      axis,
      from: Number(Math.max(least, from).toPrecision(8)),
      to: Number(Math.min(most, to).toPrecision(8)),
    };
    this.#asks.look(over.to - over.from >= 0.999 * (most - least) ? undefined : over);
  }

  #items(): MenuItem[] {
    const axis = this.#axis();
    const [at, from] = [this.#at, this.#from];
    if (axis === undefined || at === undefined) return [];
    const ends = { from: Math.min(at, from ?? at), to: Math.max(at, from ?? at) };
    const make = (what: Made): void => {
      // A mark is set where the choice ended.
      const place = what === 'mark' ? { from: at, to: at } : ends;
      this.#asks.make({ what, axis, ...place, set: this.#set, grain: this.#grain(at) });
      this.#from = undefined;
      this.#show();
    };
    const closer: MenuItem = {
      label: 'Zoom in',
      run: () => {
        if (from === undefined) this.zoom(2);
        else this.#look(ends.from, ends.to);
        this.#from = undefined;
        this.#show();
        return undefined;
      },
    };
    return [...offered(this.#asks.makings(), axis, this.#set, from === undefined, make), closer];
  }

  #axis = (): AxisRange['axis'] | undefined => this.#chart.part().axis?.quantity;

  /** Where a move by keys begins: in the middle, if nowhere yet. */
  #begin(extends_: boolean): number | undefined {
    const plot = this.#plots.at(0);
    if (plot !== undefined) this.#at ??= this.#snapped(plot.valueAt(plot.left + plot.width / 2));
    this.#from = extends_ ? (this.#from ?? this.#at) : undefined;
    this.#choices.close();
    return this.#at;
  }

  /** Indices of the first and the last sample in view. */
  #inView(): readonly [number, number] {
    const plot = this.#plots.at(0);
    const places = this.#curves.at(0)?.at ?? [];
    if (plot === undefined) return [0, places.length - 1];
    const [from, to] = edgesOf(plot);
    const within = places.flatMap((place, index) => (place >= from && place <= to ? [index] : []));
    return [within.at(0) ?? 0, within.at(-1) ?? places.length - 1];
  }

  /** On to a sample, so that what is read is exact. */
  #snapped(at: number): number {
    const places = this.#curves.at(0)?.at;
    return places === undefined ? at : places[nearest(places, at)];
  }

  #pixel = (at: number): number => this.#plots[0].pixelOf(at);

  /** What a pixel is worth there. */
  #grain(at: number): number {
    const [plot] = this.#plots;
    const pixel = plot.pixelOf(at);
    return Math.abs(plot.valueAt(pixel + 0.5) - plot.valueAt(pixel - 0.5));
  }

  #placeText = (at: number): string => placeText(at, this.#grain(at), this.#axis() === 'time' ? 's' : 'Hz');

  /** The place, or the stretch and how long it is. */
  #aboutText(): string {
    const [at, from] = [this.#at ?? 0, this.#from];
    if (from === undefined) return this.#placeText(at);
    const [lower, upper] = [Math.min(at, from), Math.max(at, from)];
    const unit = this.#axis() === 'time' ? 's' : 'Hz';
    return `${this.#placeText(lower).replace(/ \S+$/, '')} to ${this.#placeText(upper)} (${placeText(upper - lower, this.#grain(upper), unit)})`;
  }

  #lines(): string[] {
    const [at, from] = [this.#at, this.#from];
    const hidden = hiddenIn(this.#chart);
    const lines = this.#curves.flatMap((curve) => {
      if (at === undefined || (curve.series !== undefined && hidden.has(curve.series))) return [];
      const text = from === undefined ? valueText(curve, at) : differenceText(curve, from, at);
      return text === undefined ? [] : [`${curve.label}: ${text}`];
    });
    return lines.length <= mostLines
      ? lines
      : [...lines.slice(0, mostLines - 1), `and ${lines.length - mostLines + 1} more`];
  }

  #show(): void {
    const at = this.#at;
    const isShown = at !== undefined && this.#plots.length > 0 && !this.element.hidden;
    this.#hair.classList.toggle('washboard-placed', isShown);
    for (const one of [this.#other, this.#span]) one.hidden = !isShown || this.#from === undefined;
    this.#box.hidden = !isShown || this.#choices.isOpen;
    if (this.#plots.length === 0) return;
    const { left, top, width, height } = around(this.#plots);
    const [least, most] = edgesOf(this.#plots[0]);
    this.#hair.setAttribute('aria-valuemin', String(Number(least.toPrecision(6))));
    this.#hair.setAttribute('aria-valuemax', String(Number(most.toPrecision(6))));
    Object.assign(this.#hair.style, { top: `${top}px`, height: `${height}px`, left: `${left}px` });
    if (!isShown) {
      this.#hair.setAttribute('aria-valuenow', String(Number(least.toPrecision(6))));
      this.#hair.setAttribute('aria-valuetext', 'not placed');
      return;
    }
    const inside = (value: number): number => Math.min(left + width, Math.max(left, this.#pixel(value)));
    const [here, there] = [inside(at), inside(this.#from ?? at)];
    this.#hair.style.left = `${here}px`;
    Object.assign(this.#other.style, { top: `${top}px`, height: `${height}px`, left: `${there}px` });
    const [from, to] = [Math.min(here, there), Math.max(here, there)];
    Object.assign(this.#span.style, {
      top: `${top}px`,
      height: `${height}px`,
      left: `${from}px`,
      width: `${to - from}px`,
    });
    const lines = [this.#aboutText(), ...this.#lines()];
    this.#hair.setAttribute('aria-valuenow', String(Number(at.toPrecision(6))));
    this.#hair.setAttribute('aria-valuetext', lines.join('; '));
    this.#box.replaceChildren(...lines.map((line) => element('div', '', line)));
    const onLeft = here > left + width / 2;
    this.#box.style.top = `${top + 2}px`;
    this.#box.style.left = onLeft ? 'auto' : `${to + 8}px`;
    this.#box.style.right = onLeft ? `calc(100% - ${from - 8}px)` : 'auto';
  }
}

const edgesOf = (plot: Plot): readonly [number, number] => [
  plot.valueAt(plot.left),
  plot.valueAt(plot.left + plot.width),
];
