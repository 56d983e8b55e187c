import type { OptionForm } from '../../language/form.ts';
import { windowNames } from '../../signal/windows.ts';

/** The option of every verb that cuts runs into segments. */
export const usingOption: OptionForm = {
  keyword: 'using',
  doc: 'The window: a name bound to one, a shape, or one written in place.',
  accepts: [
    { type: 'value', kinds: ['window'] },
    { type: 'word', words: windowNames },
    { type: 'step', verb: 'window' },
  ],
  default: 'window hann 2 s overlap 50 %',
};
