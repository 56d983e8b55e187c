import type { Handle, HandleEnd, Literal } from '../../charts/handle.ts';
import { element } from '../element.ts';
import { around, type Plot } from './plots.ts';
import { numberAt, axisValueOf, stepOf, written } from '../../charts/rounding.ts';
import { listenTo, sliderElement } from './slider.ts';

/** What a handle asks of its chart. */
export interface Writer {
  preview(literal: Literal, text: string): void;
  move(literal: Literal, text: string): void;
  history(which: 'undo' | 'redo'): void;
}

export interface Pending {
  readonly end: number;
  readonly at: number;
  readonly from: string;
}

/** ms after the last key at which a number that was moved by keys is written. */
const keyPause = 700;

/** Height in px of a grip and the room to the next. */
const gripHeight = 19;

/** A handle over its plots: a slider for each end, and while one moves the stretch between them and what it says. */
export class HandleView {
  readonly element = element('div', 'washboard-handles');
  readonly sliders: readonly HTMLElement[];
  readonly #handle: Handle;
  readonly #writer: Writer;
  readonly #span = element('div', 'washboard-span');
  readonly #says = element('div', 'washboard-says');
  #ats: number[];
  #plots: readonly Plot[] = [];
  #moving: number | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** @param picture what pixels are counted in */
  constructor(handle: Handle, writer: Writer, picture: HTMLElement) {
    this.#handle = handle;
    this.#writer = writer;
    this.#ats = handle.ends.map(({ at }) => at);
    this.#says.hidden = true;
    this.#says.setAttribute('aria-hidden', 'true');
    this.sliders = handle.ends.map((end, index) => {
      const slider = sliderElement(handle, end);
      slider.addEventListener('pointerenter', () => this.#say(index));
      slider.addEventListener('focus', () => this.#say(index));
      slider.addEventListener('pointerleave', () => this.#quiet());
      slider.addEventListener('blur', () => this.#quiet());
      if (handle.locked === undefined && end.literal !== undefined) listenTo(slider, this.#sliderOf(index), picture);
      return slider;
    });
    this.element.append(this.#span, ...this.sliders, this.#says);
  }

  /** Puts it where it stands in the plots, the grips so many heights below their upper edge. */
  place(plots: readonly Plot[], row: number): void {
    const { sets } = this.#handle;
    this.#plots = sets === undefined ? plots : plots.filter(({ set }) => sets.includes(set));
    this.element.hidden = this.#plots.length === 0;
    if (this.#plots.length === 0) return;
    const { top, height } = around(this.#plots);
    this.sliders.forEach((slider, index) => {
      slider.style.top = `${top}px`;
      slider.style.height = `${height}px`;
      const grip = (row + (this.sliders.length > 1 ? index : 0)) * gripHeight;
      slider.style.setProperty('--washboard-grip', `${Math.min(grip, height - gripHeight)}px`);
    });
    this.#show();
  }

  dispose(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#moving = undefined;
  }

  /** What was moved and not yet written: which end, where to, and from which number. */
  get pending(): Pending | undefined {
    const end = this.#moving;
    const from = end === undefined ? undefined : this.#handle.ends[end].literal?.text;
    return end === undefined || from === undefined ? undefined : { end, at: this.#ats[end], from };
  }

  /** Goes on with a move that another drawing of the chart began, if the number is still the one that was moved. */
  resume({ end, at, from }: Pending): void {
    if (this.#handle.ends[end]?.literal?.text !== from) return;
    this.#to(end, at);
    this.#soon(end);
  }

  /** Back to where the text has it. */
  restore(): void {
    this.dispose();
    this.#ats = this.#handle.ends.map(({ at }) => at);
    this.element.classList.remove('washboard-moved');
    this.#show();
  }

  #sliderOf(index: number): Parameters<typeof listenTo>[1] {
    return {
      drag: (pixel) => this.#to(index, this.#plots[0].valueAt(pixel)),
      step: (steps) => {
        this.#to(index, this.#ats[index], steps);
        this.#soon(index);
      },
      reach: (edge) => {
        this.#to(index, this.#limits(index)[edge]);
        this.#soon(index);
      },
      release: () => this.#release(index),
      restore: () => {
        const { literal } = this.#handle.ends[index];
        const moved = this.#moving !== undefined;
        this.restore();
        if (moved && literal !== undefined) this.#writer.preview(literal, literal.text);
      },
      history: (which) => this.#writer.history(which),
    };
  }

  /** Moves an end to about a value in s or Hz, on to a whole step and so many more. */
  #to(index: number, at: number, steps = 0): void {
    const { literal, carries } = this.#handle.ends[index];
    if (literal === undefined || this.#plots.length === 0) return;
    const step = this.#step(index, literal);
    const { least, most } = this.#limits(index);
    const clamped = Math.min(most, Math.max(least, at + steps * step * literal.factor));
    let number = Number(written(numberAt(literal, clamped), step));
    // Rounding must not lead past an edge.
    if (axisValueOf(literal, number) > most) number -= literal.sign * step;
    if (axisValueOf(literal, number) < least) number += literal.sign * step;
    const text = written(number, step);
    const reached = axisValueOf(literal, Number(text));
    if (carries === true) {
      const by = reached - this.#ats[index];
      this.#ats = this.#ats.map((other) => other + by);
    }
    this.#ats[index] = reached;
    this.#moving = index;
    this.element.classList.add('washboard-moved');
    this.#show();
    this.#say(index);
    this.#writer.preview(literal, text);
  }

  #soon(index: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#release(index), keyPause);
  }

  #release(index: number): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    const { literal } = this.#handle.ends[index];
    if (this.#moving !== index || literal === undefined) return;
    this.#moving = undefined;
    const text = this.#text(index);
    if (text === literal.text || axisValueOf(literal, Number(literal.text)) === this.#ats[index]) this.restore();
    else this.#writer.move(literal, text);
  }

  /** Of the literal's own unit: not below what a pixel is worth there. */
  #step(index: number, { factor }: Literal): number {
    const [plot] = this.#plots;
    const pixel = plot.pixelOf(this.#ats[index]);
    return stepOf(Math.abs(plot.valueAt(pixel + 0.5) - plot.valueAt(pixel - 0.5)) / factor);
  }

  #limits(index: number): { readonly least: number; readonly most: number } {
    const end = this.#handle.ends[index];
    const [plot] = this.#plots;
    const shown = { from: plot.valueAt(plot.left), to: plot.valueAt(plot.left + plot.width) };
    // What a plot shows can be widened, too.
    const reach = this.#handle.name === 'shown range' ? { from: shown.from / 4, to: shown.to * 4 } : shown;
    const step = end.literal === undefined ? 0 : this.#step(index, end.literal) * end.literal.factor;
    const [lower, upper] = this.#handle.ends.length === 2 && end.carries !== true ? this.#ats : [-Infinity, Infinity];
    const least = Math.max(end.least ?? Math.min(reach.from, end.at), index === 1 ? lower + step : -Infinity);
    const most = Math.min(end.most ?? Math.max(reach.to, end.at), index === 0 ? upper - step : Infinity);
    return { least: Math.min(least, most), most };
  }

  #text(index: number): string {
    const { literal } = this.#handle.ends[index];
    if (literal === undefined) return String(this.#ats[index]);
    if (this.#ats[index] === this.#handle.ends[index].at) return literal.text;
    return written(numberAt(literal, this.#ats[index]), this.#step(index, literal));
  }

  #valueText = (index: number): string =>
    `${this.#text(index)} ${this.#handle.ends[index].literal?.unit ?? (this.#handle.axis === 'time' ? 's' : 'Hz')}`;

  #show(): void {
    if (this.#plots.length === 0) return;
    const { left, top, width, height } = around(this.#plots);
    const [plot] = this.#plots;
    const pixels = this.#ats.map((at) => plot.pixelOf(at));
    this.sliders.forEach((slider, index) => {
      slider.style.left = `${pixels[index]}px`;
      slider.hidden = pixels[index] < left - 1 || pixels[index] > left + width + 1;
      const { least, most } = this.#limits(index);
      const [low, high] = this.#numbers(this.#handle.ends[index], least, most);
      slider.setAttribute('aria-valuemin', low);
      slider.setAttribute('aria-valuemax', high);
      slider.setAttribute('aria-valuenow', String(Number(this.#text(index))));
      slider.setAttribute('aria-valuetext', this.#valueText(index));
    });
    if (pixels.length !== 2) return;
    const from = Math.max(left, Math.min(...pixels));
    const to = Math.min(left + width, Math.max(...pixels));
    Object.assign(this.#span.style, {
      left: `${from}px`,
      width: `${Math.max(0, to - from)}px`,
      top: `${top}px`,
      height: `${height}px`,
    });
  }

  #numbers = ({ literal }: HandleEnd, least: number, most: number): string[] =>
    [least, most]
      .map((at) => (literal === undefined ? at : numberAt(literal, at)))
      .sort((a, b) => a - b)
      .map((number) => String(Number(number.toPrecision(6))));

  #say(index: number): void {
    const { locked, name, ends } = this.#handle;
    const { word, literal, where = this.#handle.where } = ends[index];
    const what = `${name}${word === '' ? '' : ` ${word}`}: ${this.#valueText(index)}`;
    const then = locked ?? (literal === undefined ? 'follows from something else' : `writes ${where}`);
    this.#says.textContent = `${what} · ${then}`;
    this.#says.hidden = false;
    const { left, top, width } = around(this.#plots);
    const pixel = this.#plots[0].pixelOf(this.#ats[index]);
    const onLeft = pixel > left + width / 2;
    this.#says.style.top = `${top - 2}px`;
    this.#says.style.left = onLeft ? 'auto' : `${pixel + 10}px`;
    this.#says.style.right = onLeft ? `calc(100% - ${pixel - 10}px)` : 'auto';
  }

  #quiet(): void {
    if (this.#moving === undefined) this.#says.hidden = true;
  }
}
