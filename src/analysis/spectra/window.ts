import type { WindowValue } from '../../values/window.ts';

/** What a spectrum takes when no window is given. */
export const defaultWindow: WindowValue = { kind: 'window', shape: 'hann', length: 2, overlap: 0.5 };
