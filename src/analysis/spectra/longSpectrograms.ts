import type { Result } from '../../result/result.ts';
import { SpectrogramColumns, type Spectrogram } from '../../signal/spectrogram.ts';
import type { Channel } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { WindowValue } from '../../values/window.ts';
import type { Reach } from '../recordings/longRuns.ts';
import { bySegments } from './longSegments.ts';

/**
 * Spectrograms of the channels of those runs that are too large for memory, densities in unit^2/Hz. Refuses runs that hold
 * no segment, and a file that is not as it was.
 * @param runs of which the others are passed over
 * @param columns most that are wanted
 */
export const longSpectrograms = (
  runs: RunsValue,
  window: WindowValue,
  reach: Reach,
  columns: number,
): Promise<Result<ReadonlyMap<Channel, Spectrogram>>> =>
  bySegments(
    runs,
    {
      ...{ window, at: 'using', what: 'spectrogram' },
      make: ({ stretches }, options) => {
        const lengths = stretches.map(({ from, to, start }) => ({ length: to - from, start }));
        return new SpectrogramColumns(lengths, { ...options, columns });
      },
    },
    reach,
  );
