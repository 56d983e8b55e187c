import { spectrogramCharts } from '../plots/spectrogram.ts';
import { firstShown } from '../words/limits.ts';
import { emptySpectrogram } from '../words/spectra.ts';
import type { Presenter } from './kind.ts';

/** Beyond this many pictures nobody compares them any more. */
const pictureLimit = 12;

/** A picture a run and channel. */
export const presentSpectrogram: Presenter<'spectrogram'> = ({ entries, window }) => {
  const charts = spectrogramCharts(entries.slice(0, pictureLimit), window, { frequency: 'linear' });
  if (charts.length === 0) return [{ type: 'text', text: emptySpectrogram }];
  return entries.length > pictureLimit
    ? [...charts, { type: 'text', text: firstShown(pictureLimit, entries.length, 'pick runs') }]
    : charts;
};
