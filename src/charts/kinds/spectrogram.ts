import { spectrogramChart } from '../plots/spectrogram.ts';
import { some, type Presenter } from './kind.ts';

/** A picture a run and channel. */
export const presentSpectrogram: Presenter<'spectrogram'> = (value) =>
  some(...value.entries.slice(0, 12).map((entry) => spectrogramChart(entry, value.window, { frequency: 'linear' })));
