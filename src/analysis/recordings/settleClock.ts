import type { Clock } from '../../readers/recording.ts';
import { atUniformRate } from './uniformRate.ts';
import type { Run } from '../../values/run.ts';

/** Beyond this standard deviation of the steps over their mean, no resampling is done unasked. */
export const unevenBeyond = 0.25;

/**
 * A run on its recording's clock. Readings whose steps vary by more than 5 % of their mean, whose times the reader has
 * kept, are brought to even steps (the reader's finding says so and travels on as a warning); beyond 25 % they keep
 * their times, and verbs that need a rate refuse them until `resample` is written.
 */
export function settleClock(run: Run, { times, epoch, jitter }: Clock): Run {
  const settled = epoch === undefined ? run : { ...run, epoch };
  if (times === undefined) return settled;
  const timed = { ...settled, times };
  return jitter > unevenBeyond ? timed : atUniformRate(timed);
}
