import { capitalised } from '../../result/words.ts';
import { windowWords } from '../names.ts';
import { plain } from '../../values/number.ts';
import type { Presenter } from './kind.ts';

/** `Hann window of 2 s, overlap 50 %, so bins are 0.5 Hz apart`. */
export const presentWindow: Presenter<'window'> = (window) => [
  {
    type: 'text',
    text: `${capitalised(windowWords(window))}: bins of a spectrum lie ${plain(1 / window.length, 4)} Hz apart.`,
  },
];
