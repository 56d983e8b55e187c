import type { Plot } from './plots.ts';
import type { Stretch } from './stretch.ts';

/** What pointers and keys ask of the ground. Pixels are those of the layer. */
export interface GroundMoves {
  plotAt(x: number, y: number): Plot | undefined;
  isAt(pixel: number): boolean;
  point(pixel: number, plot: Plot, from?: number): void;
  extend(pixel: number, plot: Plot): void;
  /** Where there is a height to be read at: at a pixel's, or so many rows up; the latter tells whether there is. */
  raise(y: number, plot: Plot): void;
  rise(rows: number): boolean;
  step(samples: number, extends_: boolean): void;
  reach(edge: 'least' | 'most', extends_: boolean): void;
  clear(): boolean;
  show(): void;
  offer(): void;
  zoom(times: number, pixel?: number): void;
  /** The stretch that is looked at, if no more than one is. */
  readonly looked: Stretch | undefined;
  pan(by: number, stretch?: Stretch, plot?: Plot): void;
  leaf(way: 1 | -1): void;
  showAll(): void;
  history(which: 'undo' | 'redo'): void;
}

/** px that a pointer moves before it chooses a stretch. */
const threshold = 4;

/** Samples of Page Up and Page Down. */
const leap = 20;

/** How many times closer a key looks. */
const closer = 1.5;

/** A drag from where a pointer went down: along the plot it chooses a stretch, or moves the one that is looked at. */
interface Begun {
  /** The name of its cross-hair, by which the chart is known when it is drawn anew meanwhile. */
  readonly of: string | null;
  readonly x: number;
  readonly plot: Plot;
  /** What is moved; undefined where a stretch is chosen. */
  readonly moves: Stretch | undefined;
  readonly button: number;
  isDragged: boolean;
}

/** The one drag on the page: it goes on over a chart that is drawn anew before it ends, as by a run that ends meanwhile. */
let begun: Begun | undefined;

type Heard = 'pointerdown' | 'pointermove' | 'pointerup' | 'pointercancel' | 'mousedown' | 'wheel';

/**
 * Pointers over the picture: a click places the cross-hair, a drag chooses a stretch, a wheel with Ctrl (as a pinch is told) looks
 * closer. What is looked at closer is moved by a drag with Shift or the middle button, and by a wheel with Shift or to the side.
 */
export function listenToPicture(picture: HTMLElement, layer: HTMLElement, ground: GroundMoves): () => void {
  const stop = new AbortController();
  const { signal } = stop;
  const at = (event: MouseEvent): readonly [number, number] => {
    const { left, top } = layer.getBoundingClientRect();
    return [event.clientX - left, event.clientY - top];
  };
  const plotUnder = (event: MouseEvent): Plot | undefined => ground.plotAt(...at(event));
  const hair = (): HTMLElement | null => layer.querySelector('.washboard-hair');
  const isOwn = (): boolean => begun?.of === hair()?.ariaLabel;
  const end = (): void => {
    begun = undefined;
    picture.classList.remove('washboard-panned');
  };
  const on = <Type extends Heard>(type: Type, listener: (event: HTMLElementEventMap[Type]) => void): void =>
    picture.addEventListener(type, listener, { signal, passive: false });
  on('mousedown', (event) => {
    // The page would be scrolled along with the pointer.
    if (event.button === 1 && ground.looked !== undefined && plotUnder(event) !== undefined) event.preventDefault();
  });
  on('pointerdown', (event) => {
    const { button, shiftKey } = event;
    const moves = button === 1 || shiftKey ? ground.looked : undefined;
    const plot = button === 0 || moves !== undefined ? plotUnder(event) : undefined;
    if (plot === undefined || !event.isPrimary) return;
    // A text would be selected; a finger may still scroll up and down.
    if (event.pointerType === 'mouse') event.preventDefault();
    begun = { of: hair()!.ariaLabel, x: at(event)[0], plot, moves, button, isDragged: false };
  });
  on('pointermove', (event) => {
    if (begun === undefined || !isOwn()) return;
    // It ended where nobody heard of it.
    if (event.buttons === 0) return end();
    const [x, y] = at(event);
    if (!begun.isDragged && Math.abs(x - begun.x) < threshold) return;
    begun.isDragged = true;
    picture.setPointerCapture(event.pointerId);
    dragged(begun, x, y, ground);
    picture.classList.toggle('washboard-panned', begun.moves !== undefined);
  });
  on('pointerup', (event) => {
    const ended = begun;
    if (ended?.button !== event.button || !isOwn()) return;
    end();
    if (!released(ended, event.shiftKey, at(event)[1], ground)) return;
    hair()?.focus({ preventScroll: true });
  });
  on('pointercancel', () => {
    const ended = begun;
    if (!isOwn()) return;
    end();
    if (ended?.isDragged !== true) return;
    if (ended.moves === undefined) ground.clear();
    else ground.pan(0, ended.moves, ended.plot);
  });
  on('wheel', (event) => {
    if (plotUnder(event) !== undefined && turned(event, at(event)[0], ground)) keep(event);
  });
  return () => stop.abort();
}

function dragged({ x: from, plot, moves }: Begun, x: number, y: number, ground: GroundMoves): void {
  if (moves !== undefined) return ground.pan(x - from, moves, plot);
  ground.raise(y, plot);
  ground.point(x, plot, from);
}

/** Does what a click or a drag asks when it ends; tells whether the cross-hair was placed. */
function released(
  { x, plot, moves, isDragged, button }: Begun,
  isFurther: boolean,
  y: number,
  ground: GroundMoves,
): boolean {
  if (button !== 0 || (isDragged && moves !== undefined)) return false;
  if (isDragged || ground.isAt(x)) {
    ground.offer();
    return false;
  }
  ground.raise(y, plot);
  if (isFurther) ground.extend(x, plot);
  else ground.point(x, plot);
  return true;
}

/** Does what a turn of the wheel asks; tells whether it asked for anything. */
function turned({ ctrlKey, metaKey, shiftKey, deltaX, deltaY }: WheelEvent, x: number, ground: GroundMoves): boolean {
  if (ctrlKey || metaKey) {
    ground.zoom(1.25 ** -Math.max(-1, Math.min(1, deltaY / 100)), x);
    return true;
  }
  const isAside = shiftKey || Math.abs(deltaX) > Math.abs(deltaY);
  if (!isAside || ground.looked === undefined) return false;
  ground.pan(-(Math.abs(deltaX) > Math.abs(deltaY) ? deltaX : deltaY));
  return true;
}

/** From the editor, which would make all text larger, scroll the page, or move to another cell. */
function keep(event: Event): void {
  event.preventDefault();
  event.stopPropagation();
}

/** Keys on the cross-hair. */
export function listenToHair(hair: HTMLElement, ground: GroundMoves): void {
  hair.addEventListener('focus', () => ground.show());
  hair.addEventListener('keydown', (event) => {
    if (keyed(event, ground)) keep(event);
  });
}

/** Does what a key asks; tells whether it asked for anything. */
function keyed({ key, shiftKey, ctrlKey, metaKey }: KeyboardEvent, ground: GroundMoves): boolean {
  if (ctrlKey || metaKey) {
    if (key === 'ArrowLeft' || key === 'ArrowRight') {
      ground.leaf(key === 'ArrowLeft' ? -1 : 1);
      return true;
    }
    const letter = key.toLowerCase();
    if (letter !== 'z' && letter !== 'y') return false;
    ground.history(letter === 'y' || shiftKey ? 'redo' : 'undo');
    return true;
  }
  const steps: Readonly<Record<string, number>> = {
    ArrowRight: 1,
    ArrowUp: 1,
    ArrowLeft: -1,
    ArrowDown: -1,
    PageUp: leap,
    PageDown: -leap,
  };
  const rows = shiftKey ? 0 : key === 'ArrowUp' ? 1 : key === 'ArrowDown' ? -1 : 0;
  if (rows !== 0 && ground.rise(rows)) return true;
  if (Object.hasOwn(steps, key)) ground.step(steps[key], shiftKey);
  else if (key === 'Home' || key === 'End') ground.reach(key === 'Home' ? 'least' : 'most', shiftKey);
  else if (key === 'Enter' || key === ' ') ground.offer();
  else if (key === '+' || key === '=') ground.zoom(closer);
  else if (key === '-') ground.zoom(1 / closer);
  else if (key === '0') ground.showAll();
  else return key === 'Escape' && ground.clear();
  return true;
}
