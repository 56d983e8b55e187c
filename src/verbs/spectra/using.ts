import { windowNames, windowOfShape } from '../../analysis/spectra/window.ts';
import type { OptionForm } from '../../language/form.ts';
import type { WindowName, WindowValue } from '../../values/window.ts';
import { option, wordOf } from '../arguments.ts';
import type { Arguments } from '../verb.ts';

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

/** The window that the option names: a window value, or the name of a shape at the usual length. */
export function windowOf(given: Arguments): WindowValue {
  const argument = option(given, 'using');
  if (argument?.type === 'value' && argument.value.kind === 'window') return argument.value;
  return windowOfShape(wordOf(argument) as WindowName | undefined);
}
