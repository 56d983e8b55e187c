import { windowSentence } from '../words/design.ts';
import type { Presenter } from './kind.ts';

/** `Hann window of 2 s, overlap 50 %`, and how far apart its bins lie. */
export const presentWindow: Presenter<'window'> = (window) => [{ type: 'text', text: windowSentence(window) }];
