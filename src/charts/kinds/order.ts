import { plain } from '../number.ts';
import type { Presenter } from './kind.ts';

/** The order as it is to be ridden, and what a steady drift would do to it. */
export const presentOrder: Presenter<'order'> = ({ scheme, sequence, leanPercent }) => [
  {
    type: 'text',
    text: [
      `${scheme}: ${sequence.join(' ')}`,
      Math.abs(leanPercent) < 1e-9
        ? 'A steady drift from run to run cancels out.'
        : `A steady drift of 1 % a run would lean the change by ${plain(leanPercent, 3)} %.`,
    ].join('\n'),
  },
];
