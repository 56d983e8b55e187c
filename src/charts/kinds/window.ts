import { percent, plain } from '../number.ts';
import type { Presenter } from './kind.ts';

/** `hann window of 2 s, overlap 50 %, so bins are 0.5 Hz apart`. */
export const presentWindow: Presenter<'window'> = ({ shape, length, overlap }) => [
  {
    type: 'text',
    text: `${shape} window of ${plain(length)} s, overlap ${percent(overlap)}: bins of a spectrum lie ${plain(1 / length, 4)} Hz apart`,
  },
];
