import { longSpectrograms } from '../../analysis/spectra/longSpectrograms.ts';
import { mostColumns, spectrogramOf } from '../../analysis/spectra/spectrogram.ts';
import { valueOf, type Verb, usingOption, windowOf } from '../verb.ts';

export const spectrogram: Verb = {
  takesLong: true,
  each: 'runs',
  form: {
    verb: 'spectrogram',
    summary: 'Gives the level over time and frequency.',
    help: 'The density of each segment of Welch’s method in turn, before they are averaged: one-sided, the mean of each segment removed, periodic window, in unit²/Hz. A single segment’s bin is uncertain by 100 %, so read patterns, not single cells. A short window resolves time, a long one frequency: a 2 s window can’t show what lasts 0.1 s. Where there would be more than 1000 columns, neighbouring segments are averaged.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [usingOption],
    gives: 'spectrogram',
    examples: [
      'foam = load "raw/brick-foam-1.csv.gz" | channel z | trim 10..70 s\nspectrogram foam using window hann 1 s overlap 75 %',
    ],
  },
  async evaluate(given, context) {
    const runs = valueOf(given, 'runs', 'runs');
    const window = windowOf(given);
    const known = await longSpectrograms(runs, window, context, mostColumns);
    return known.ok ? spectrogramOf(runs, window, context.watch, known.value) : known;
  },
};
