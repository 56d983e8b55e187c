import { figure } from './columns.ts';
import type { Description } from './description.ts';
import { formatNumber } from '../units/format.ts';
import { inShort } from './short.ts';

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
  summary: ({ shape, length, overlap }) =>
    inShort(
      shape,
      `${formatNumber(length)} s`,
      `overlap ${formatNumber(100 * overlap)} %`,
      `bins ${formatNumber(1 / length)} Hz apart`,
    ),
  whole: [
    figure('shape', '', ({ shape }) => shape),
    figure('length', 's', ({ length }) => length),
    figure('overlap', '%', ({ overlap }) => overlap * 100),
  ],
  runs: () => [],
} satisfies Description<WindowValue>;
