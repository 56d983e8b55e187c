import { spectrumOf } from '../../analysis/spectra/spectrum.ts';
import { option, siOf, valueOf, wordOf } from '../arguments.ts';
import type { Verb } from '../verb.ts';
import { usingOption, windowOf } from './using.ts';

export const spectrum: Verb = {
  form: {
    verb: 'spectrum',
    summary: 'Gives the spectrum of each run and channel, with confidence limits.',
    help: 'Welch’s method (Welch 1967, IEEE Trans. Audio Electroacoust. 15): one-sided, the mean of each segment removed, periodic window, mean of powers. `psd` is a density in unit²/Hz, right for broadband vibration; `amplitude` is the height of a sine in the channel’s unit, right for lines. The limits are those of each bin by itself, from chi-square with twice the effective number of averages (overlapping segments count for less); they say nothing about another run. No segment crosses a gap.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [
      usingOption,
      {
        keyword: 'as',
        doc: 'Density, or height of lines.',
        accepts: [{ type: 'word', words: ['psd', 'amplitude'] }],
        default: 'psd',
      },
      {
        keyword: 'confidence',
        doc: 'Of the limits.',
        accepts: [{ type: 'quantity', dimension: 'ratio', least: 0.5, most: 0.9999 }],
        default: '95 %',
      },
    ],
    gives: 'spectrum',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nspectrum foam using window hann 2 s',
    ],
  },
  evaluate(given, { watch }) {
    const form = wordOf(option(given, 'as')) === 'amplitude' ? 'amplitude' : 'psd';
    const request = { window: windowOf(given), form, confidence: siOf(given, 'confidence') } as const;
    return spectrumOf(valueOf(given, 'runs', 'runs'), request, watch);
  },
};
