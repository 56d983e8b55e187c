import type { Result } from '../../result/result.ts';
import { WelchSum, type Density } from '../../signal/welch.ts';
import type { Channel } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { WindowValue } from '../../values/window.ts';
import type { Reach } from '../recordings/longRuns.ts';
import { bySegments } from './longSegments.ts';

/**
 * Densities by Welch's method of the channels of those runs that are too large for memory, in unit^2/Hz: to the last digit
 * those of the whole. Refuses runs that hold no segment, and a file that is not as it was.
 * @param runs of which the others are passed over
 * @param at the operand or option to blame where a run holds no segment
 */
export const longDensities = (
  runs: Pick<RunsValue, 'runs'>,
  window: WindowValue,
  reach: Reach,
  at = 'using',
): Promise<Result<ReadonlyMap<Channel, Density>>> =>
  bySegments(
    runs,
    {
      ...{ window, at, what: 'spectrum' },
      make: (_, options) => {
        const sum = new WelchSum(options);
        return {
          add: (samples) => sum.addBlock(samples),
          end: () => sum.endStretch(),
          get found() {
            return sum.density();
          },
        };
      },
    },
    reach,
  );
