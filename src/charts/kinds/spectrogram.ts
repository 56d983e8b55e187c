import { spectrogramCharts } from '../plots/spectrogram.ts';
import type { Presenter } from './kind.ts';

/** Beyond this many pictures nobody compares them any more. */
const pictureLimit = 12;

/** A picture a run and channel. */
export const presentSpectrogram: Presenter<'spectrogram'> = ({ entries, window }) => {
  const charts = spectrogramCharts(entries.slice(0, pictureLimit), window, { frequency: 'linear' });
  if (charts.length === 0) return [{ type: 'text', text: 'No level lies above zero: there is nothing to draw.' }];
  return entries.length > pictureLimit
    ? [
        ...charts,
        {
          type: 'text',
          text: `The first ${pictureLimit} of ${entries.length} are shown; pick single runs to see the others.`,
        },
      ]
    : charts;
};
