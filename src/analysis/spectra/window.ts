import type { WindowName, WindowValue } from '../../values/window.ts';

export { windowNames } from '../../signal/windows.ts';

/** What a spectrum takes when no window is given. */
export const defaultWindow: WindowValue = { kind: 'window', shape: 'hann', length: 2, overlap: 0.5 };

/** The window of a shape, of the usual length and overlap; without a shape, the usual window. */
export const windowOfShape = (shape: WindowName | undefined): WindowValue =>
  shape === undefined ? defaultWindow : { ...defaultWindow, shape };
