import type { AxisRange, Choice, Made, Making } from '../../charts/making.ts';
import type { DrawnChart } from '../chart.ts';
import { element } from '../element.ts';
import type { MenuItem } from '../taking/menu.ts';
import { cellsOf, type Cells } from './cells.ts';
import { Choices, offered, type Menus } from './choices.ts';
import { listenToHair, listenToPicture } from './groundEvents.ts';
import { Hair } from './hair.ts';
import { around, type Plot } from './plots.ts';
import { curvesOf, differenceText, nearest, placeText, valueText, type Curve } from './readings.ts';
import { panned, shownIn, zoomed, type Stretch } from './stretch.ts';
import { hiddenIn } from './update.ts';

/** What the ground of a chart asks of the page and the editor. */
export interface GroundAsks {
  readonly menus: Menus;
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
  /** In Hz, in a picture over time and frequency. */
  readonly height: number | undefined;
  readonly set: number;
  readonly hasFocus: boolean;
  /** Whether it is shown what can be made of it. */
  readonly isOffering: boolean;
}

/** Of the width of a plot how far a key moves what it shows. */
const page = 0.5;

/** The reading box has so many lines at most. */
const mostLines = 12;

/** The plots of a chart behind its handles: a cross-hair that reads all curves, a stretch that can be chosen, and the closer look. */
export class Ground {
  readonly element = element('div', 'washboard-ground');
  readonly #chart: DrawnChart;
  readonly #asks: GroundAsks;
  readonly #hair: Hair;
  readonly #choices: Choices;
  readonly #unlisten: () => void;
  #plots: readonly Plot[] = [];
  #curves: readonly Curve[] = [];
  /** Of a picture over time and frequency its levels, and the frequency at which they are read. */
  #cells: Cells | undefined;
  #height: number | undefined;
  #part: unknown;
  #at: number | undefined;
  #from: number | undefined;
  #set = 0;
  /** The whole axis. */
  #whole: Stretch | undefined;

  constructor(chart: DrawnChart, asks: GroundAsks) {
    this.#chart = chart;
    this.#asks = asks;
    this.#hair = new Hair(chart.part().title);
    this.element.append(...this.#hair.elements);
    this.#choices = new Choices(asks.menus, chart.element, () => this.#hair.focus());
    listenToHair(this.#hair.slider, this);
    this.#unlisten = listenToPicture(chart.picture, this.element, this);
    this.#show();
  }

  /** Follows what is drawn. */
  place(plots: readonly Plot[]): void {
    this.#plots = plots;
    const part = this.#chart.part();
    if (this.#part !== part) {
      this.#cells = cellsOf(part);
      this.#curves = this.#cells === undefined ? curvesOf(part) : this.#read();
    }
    this.#part = part;
    const first = plots.at(0);
    if (first !== undefined && !this.#asks.isCloser()) this.#whole = shownIn(first);
    this.element.hidden = first === undefined || this.#curves.length === 0;
    this.#show();
  }

  dispose(): void {
    this.#unlisten();
    this.#choices.remove();
  }

  get state(): GroundState {
    return {
      at: this.#at,
      from: this.#from,
      height: this.#height,
      set: this.#set,
      hasFocus: this.#hair.hasFocus,
      isOffering: this.#choices.isOpen,
    };
  }

  resume({ at, from, height, set, hasFocus, isOffering }: GroundState): void {
    // A drag may have gone on while it was drawn.
    if (this.#at === undefined) [this.#at, this.#from, this.#set] = [at, from, set];
    if (height !== undefined) this.#readAt(height);
    if (hasFocus) this.#hair.focus();
    this.#show();
    if (isOffering) this.offer();
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

  /** Reads a picture over time and frequency at a pixel's height. */
  raise(y: number, { top, height }: Plot): void {
    const cells = this.#cells;
    if (cells !== undefined) this.#readAt(cells.middleOf(cells.rowAt(1 - (y - top) / height)).frequency);
  }

  /** So many rows of such a picture up; tells whether it is one. */
  rise(rows: number): boolean {
    const cells = this.#cells;
    if (cells === undefined) return false;
    this.#begin(false);
    const row = cells.rowOf(this.#heightIn(cells)) + rows;
    this.#readAt(cells.middleOf(Math.min(cells.rows - 1, Math.max(0, row))).frequency);
    this.#show();
    return true;
  }

  #heightIn = (cells: Cells): number => this.#height ?? cells.middleOf(cells.rowAt(0.5)).frequency;

  #readAt(height: number): void {
    this.#height = height;
    if (this.#cells !== undefined) this.#curves = this.#read();
  }

  /** The levels at the height that is read. */
  #read = (): Curve[] =>
    this.#cells === undefined ? [] : [this.#cells.curve(this.#cells.rowOf(this.#heightIn(this.#cells)))];

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
    const wanted = nearest(places, at) + samples;
    this.#at = places[Math.min(most, Math.max(least, wanted))];
    // Beyond the edge of a stretch it is followed.
    if (wanted < least || wanted > most) this.leaf(wanted < least ? -1 : 1);
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
    this.#hair.box.hidden = true;
  }

  /** Looks so many times closer about a pixel, or about the cross-hair. */
  zoom(times: number, pixel?: number): void {
    const plot = this.#plots.at(0);
    if (plot === undefined || this.element.hidden) return;
    const about = pixel ?? (this.#at === undefined ? plot.left + plot.width / 2 : this.#pixel(this.#at));
    this.#look(zoomed(plot, this.#wanted(plot), times, about));
  }

  /** What is to be shown, where that is a stretch: a drag that moves it goes by what was shown when it began. */
  get looked(): Stretch | undefined {
    return this.#asks.over();
  }

  /** Moves a stretch on by so many px to the right, or to the left; that which is shown unless said. @param plot as it was when that was shown */
  pan(by: number, stretch = this.looked, plot = this.#plots.at(0)): void {
    if (stretch === undefined || plot === undefined || this.#whole === undefined) return;
    this.#look(panned(plot, stretch, by, this.#whole));
  }

  /** To what lies beside the stretch that is looked at, most of it. */
  leaf(way: 1 | -1): void {
    this.pan(-way * page * (this.#plots.at(0)?.width ?? 0));
  }

  showAll(): void {
    this.#asks.look(undefined);
  }

  history(which: 'undo' | 'redo'): void {
    this.#asks.history(which);
  }

  /** What is to be seen: asked for, though it may not be drawn yet. */
  #wanted = (plot: Plot): Stretch => this.looked ?? shownIn(plot);

  #look({ from, to }: Stretch): void {
    const axis = this.#axis();
    if (this.#whole === undefined || axis === undefined) return;
    const { from: least, to: most } = this.#whole;
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
        else this.#look(ends);
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
    const { from, to } = shownIn(plot);
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
    const cells = this.#cells;
    const share = cells?.middleOf(cells.rowOf(this.#heightIn(cells))).share;
    const lines = isShown ? [this.#aboutText(), ...this.#lines()] : [];
    const place = { at: at ?? 0, from: this.#from, share, lines, isQuiet: this.#choices.isOpen };
    this.#hair.show(this.#plots, isShown ? place : undefined);
  }
}
