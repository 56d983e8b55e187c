import type { Handle, HandleEnd } from '../../charts/handle.ts';
import { capitalised } from '../../result/words.ts';
import { element } from '../element.ts';

/** What a slider asks of the handle that it is an end of. */
export interface SliderOf {
  /** To a pixel of the picture. */
  drag(pixel: number): void;
  /** By so many steps; to the lowest or highest place. */
  step(steps: number): void;
  reach(edge: 'least' | 'most'): void;
  /** Writes what was moved, or takes it back. */
  release(): void;
  restore(): void;
  history(which: 'undo' | 'redo'): void;
}

/** A slider's element: a grip on a line over the plots. */
export function sliderElement(handle: Handle, { word, literal, where = handle.where }: HandleEnd): HTMLElement {
  const slider = element('div', `washboard-handle${handle.locked === undefined ? '' : ' washboard-locked'}`);
  slider.tabIndex = 0;
  const fixed = handle.locked ?? (literal === undefined ? 'it follows from something else' : undefined);
  const name = `${capitalised(handle.name)}${word === '' ? '' : ` ${word}`}, ${where}`;
  slider.setAttribute('role', 'slider');
  slider.setAttribute('aria-orientation', 'horizontal');
  slider.setAttribute('aria-label', fixed === undefined ? name : `${name}, locked: ${fixed}`);
  if (fixed !== undefined) slider.setAttribute('aria-disabled', 'true');
  return slider;
}

/** Lets mouse, pen, finger and keys move it. */
export function listenTo(slider: HTMLElement, of: SliderOf, picture: HTMLElement): void {
  const pixelOf = (event: PointerEvent): number => event.clientX - picture.getBoundingClientRect().left;
  let grabbed: number | undefined;
  slider.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    event.preventDefault();
    event.stopPropagation();
    slider.setPointerCapture(event.pointerId);
    slider.focus({ preventScroll: true });
    const own = slider.getBoundingClientRect();
    grabbed = event.clientX - (own.left + own.width / 2);
  });
  slider.addEventListener('pointermove', (event) => {
    if (grabbed !== undefined && slider.hasPointerCapture(event.pointerId)) of.drag(pixelOf(event) - grabbed);
  });
  const end = (then: () => void) => () => {
    if (grabbed === undefined) return;
    grabbed = undefined;
    then();
  };
  slider.addEventListener(
    'pointerup',
    end(() => of.release()),
  );
  slider.addEventListener(
    'pointercancel',
    end(() => of.restore()),
  );
  slider.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') grabbed = undefined;
    if (!keyed(event, of)) return;
    // The notebook would move to another cell, and the page scroll.
    event.preventDefault();
    event.stopPropagation();
  });
  slider.addEventListener('blur', () => of.release());
}

/** Steps of Page Up and of an arrow with Shift. */
const leap = 10;

/** Does what a key asks; tells whether it asked for anything. */
function keyed(event: KeyboardEvent, of: SliderOf): boolean {
  const { key } = event;
  if (event.ctrlKey || event.metaKey) {
    const which = key.toLowerCase() === 'y' || (key.toLowerCase() === 'z' && event.shiftKey) ? 'redo' : 'undo';
    if (which === 'undo' && key.toLowerCase() !== 'z') return false;
    of.history(which);
    return true;
  }
  const steps: Readonly<Record<string, number>> = {
    ArrowRight: event.shiftKey ? leap : 1,
    ArrowUp: event.shiftKey ? leap : 1,
    ArrowLeft: event.shiftKey ? -leap : -1,
    ArrowDown: event.shiftKey ? -leap : -1,
    PageUp: leap,
    PageDown: -leap,
  };
  if (Object.hasOwn(steps, key)) of.step(steps[key]);
  else if (key === 'Home') of.reach('least');
  else if (key === 'End') of.reach('most');
  else if (key === 'Enter') of.release();
  else if (key === 'Escape') of.restore();
  else return false;
  return true;
}
