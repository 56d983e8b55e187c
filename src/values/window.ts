import type { Description } from './description.ts';

export type WindowName = 'hann' | 'hamming' | 'blackman' | 'blackman-harris' | 'flattop' | 'rectangular';

export interface WindowValue {
  readonly kind: 'window';
  readonly shape: WindowName;
  /** s */
  readonly length: number;
  /** 0 to below 1. */
  readonly overlap: number;
}

export const windowKind = {
  kind: 'window',
  words: 'a window',
  whole: [
    { key: 'shape', read: ({ shape }) => shape },
    { key: 'length', unit: 's', read: ({ length }) => length },
    { key: 'overlap', unit: '%', read: ({ overlap }) => overlap * 100 },
  ],
  runs: () => [],
} satisfies Description<WindowValue>;
