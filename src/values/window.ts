export type WindowName = 'hann' | 'hamming' | 'blackman' | 'blackman-harris' | 'flattop' | 'rectangular';

export interface WindowValue {
  readonly kind: 'window';
  readonly shape: WindowName;
  /** s */
  readonly length: number;
  /** 0 to below 1. */
  readonly overlap: number;
}
