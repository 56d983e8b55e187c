import { spectrogram as densities } from '../../signal/spectrogram.ts';
import { windowShape } from '../../signal/windows.ts';
import { densityUnit } from '../../units/parse.ts';
import { valueOf } from '../arguments.ts';
import { pieces, whyUneven } from '../../analysis/recordings/runs.ts';
import { segmentSamples, whyTooShort } from '../../analysis/spectra/segments.ts';
import { usingOption, windowOf } from './using.ts';
import type { SpectrogramEntry } from '../../values/spectrogram.ts';
import { answer, type Verb } from '../verb.ts';

/** Beyond this neighbouring segments are averaged: no screen shows more columns. */
const mostColumns = 1000;

export const spectrogram: Verb = {
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
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const uneven = whyUneven(runs);
    if (uneven !== undefined) return uneven;
    const window = windowOf(given);
    const short = whyTooShort(runs.runs, window, 'using');
    if (short !== undefined) return short;
    const entries: SpectrogramEntry[] = [];
    for (const run of runs.runs) {
      watch.progress(entries.length / runs.runs.length, `spectrogram of ${run.label}`);
      const shape = windowShape(window.shape, segmentSamples(run, window));
      for (const channel of run.channels) {
        const found = densities(
          pieces(run, channel).map((samples, s) => ({ samples, start: run.stretches[s].start })),
          { shape, rate: run.rate, overlap: window.overlap, cancelled: watch.cancelled, columns: mostColumns },
        );
        entries.push({
          run,
          channel,
          unit: densityUnit(channel.unit),
          spacing: found.step,
          bins: found.bins,
          times: found.times,
          density: found.density,
          ...(found.perColumn > 1 ? { perColumn: found.perColumn } : {}),
        });
      }
    }
    return answer({ kind: 'spectrogram', set: runs.set, window, entries });
  },
};
