import { defaultWindow, windowNames } from '../../analysis/spectra/window.ts';
import { answer, operand, quantityIn, si, siOf, wordOf, type Verb } from '../verb.ts';
import type { WindowName } from '../../values/window.ts';

export const window: Verb = {
  form: {
    verb: 'window',
    summary: 'Says how a recording is cut into segments for a spectrum.',
    help: 'Shape, length and overlap of the segments of Welch’s method. A segment has exactly round(length × rate) samples and is never padded, so the bins are exactly rate / samples apart. The windows are periodic. A long segment resolves close lines; a short one leaves more segments to average, and a surer level.',
    operands: [
      { name: 'shape', doc: 'Shape of the window.', accepts: [{ type: 'word', words: windowNames }] },
      {
        name: 'length',
        doc: 'Length of a segment.',
        accepts: [{ type: 'quantity', dimension: 'time', above: 0 }],
        optional: true,
      },
    ],
    options: [
      {
        keyword: 'overlap',
        doc: 'Share of a segment that the next one covers again.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0, most: 0.95 }],
        default: '50 %',
      },
    ],
    gives: 'window',
    examples: ['fine = window hann 4 s overlap 50 %', 'window flattop 2 s overlap 75 %'],
  },
  evaluate(given) {
    const length = quantityIn(operand(given, 'length'));
    return answer({
      kind: 'window',
      shape: (wordOf(operand(given, 'shape')) as WindowName | undefined) ?? defaultWindow.shape,
      length: length === undefined ? defaultWindow.length : si(length),
      overlap: siOf(given, 'overlap') ?? defaultWindow.overlap,
    });
  },
};
