import type { Plot } from './plots.ts';

/** What pointers and keys ask of the ground. Pixels are those of the layer. */
export interface GroundMoves {
  plotAt(x: number, y: number): Plot | undefined;
  isAt(pixel: number): boolean;
  point(pixel: number, plot: Plot, from?: number): void;
  extend(pixel: number, plot: Plot): void;
  step(samples: number, extends_: boolean): void;
  reach(edge: 'least' | 'most', extends_: boolean): void;
  clear(): boolean;
  show(): void;
  offer(): void;
  zoom(times: number, pixel?: number): void;
  showAll(): void;
  history(which: 'undo' | 'redo'): void;
}

/** px that a pointer moves before it chooses a stretch. */
const threshold = 4;

/** Samples of Page Up and Page Down. */
const leap = 20;

/** How many times closer a key looks. */
const closer = 1.5;

/** Pointers over the picture: a click places the cross-hair, a drag chooses a stretch, a wheel with Ctrl (as a pinch is told) looks closer. */
export function listenToPicture(picture: HTMLElement, layer: HTMLElement, ground: GroundMoves): () => void {
  const stop = new AbortController();
  const { signal } = stop;
  const at = (event: MouseEvent): readonly [number, number] => {
    const { left, top } = layer.getBoundingClientRect();
    return [event.clientX - left, event.clientY - top];
  };
  let begun: { readonly x: number; readonly plot: Plot; isDragged: boolean } | undefined;
  const on = <Type extends 'pointerdown' | 'pointermove' | 'pointerup' | 'pointercancel' | 'wheel'>(
    type: Type,
    listener: (event: HTMLElementEventMap[Type]) => void,
  ): void => picture.addEventListener(type, listener, { signal, passive: false });
  on('pointerdown', (event) => {
    const [x, y] = at(event);
    const plot = event.button === 0 ? ground.plotAt(x, y) : undefined;
    if (plot === undefined) return;
    // A text would be selected; a finger may still scroll up and down.
    if (event.pointerType === 'mouse') event.preventDefault();
    begun = { x, plot, isDragged: false };
  });
  on('pointermove', (event) => {
    if (begun === undefined) return;
    const [x] = at(event);
    if (!begun.isDragged && Math.abs(x - begun.x) < threshold) return;
    if (!begun.isDragged) picture.setPointerCapture(event.pointerId);
    begun.isDragged = true;
    ground.point(x, begun.plot, begun.x);
  });
  on('pointerup', (event) => {
    if (begun === undefined) return;
    const { x, plot, isDragged } = begun;
    begun = undefined;
    if (isDragged || ground.isAt(x)) return ground.offer();
    if (event.shiftKey) ground.extend(x, plot);
    else ground.point(x, plot);
    layer.querySelector<HTMLElement>('.washboard-hair')?.focus({ preventScroll: true });
  });
  on('pointercancel', () => {
    if (begun?.isDragged === true) ground.clear();
    begun = undefined;
  });
  on('wheel', (event) => {
    if (!event.ctrlKey && !event.metaKey) return;
    const [x, y] = at(event);
    if (ground.plotAt(x, y) === undefined) return;
    // The editor would make all text larger.
    event.preventDefault();
    event.stopPropagation();
    const notches = Math.max(-1, Math.min(1, event.deltaY / 100));
    ground.zoom(1.25 ** -notches, x);
  });
  return () => stop.abort();
}

/** Keys on the cross-hair. */
export function listenToHair(hair: HTMLElement, ground: GroundMoves): void {
  hair.addEventListener('focus', () => ground.show());
  hair.addEventListener('keydown', (event) => {
    if (!keyed(event, ground)) return;
    // The notebook would move to another cell, and the page scroll.
    event.preventDefault();
    event.stopPropagation();
  });
}

/** Does what a key asks; tells whether it asked for anything. */
function keyed({ key, shiftKey, ctrlKey, metaKey }: KeyboardEvent, ground: GroundMoves): boolean {
  if (ctrlKey || metaKey) {
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
  if (Object.hasOwn(steps, key)) ground.step(steps[key], shiftKey);
  else if (key === 'Home' || key === 'End') ground.reach(key === 'Home' ? 'least' : 'most', shiftKey);
  else if (key === 'Enter' || key === ' ') ground.offer();
  else if (key === '+' || key === '=') ground.zoom(closer);
  else if (key === '-') ground.zoom(1 / closer);
  else if (key === '0') ground.showAll();
  else return key === 'Escape' && ground.clear();
  return true;
}
