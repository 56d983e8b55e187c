import { success, type Result } from '../../result/result.ts';
import { WelchSum, type Density } from '../../signal/welch.ts';
import { windowShape } from '../../signal/windows.ts';
import type { Channel } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { WindowValue } from '../../values/window.ts';
import { alongStretches, eachBlock, isLong, signalsIn, type LongerRun, type Reach } from '../recordings/longRuns.ts';
import { segmentSamples, whyTooShort } from './segments.ts';

/**
 * Densities by Welch's method of the channels of those runs that are too large for memory, in unit^2/Hz: to the last digit
 * those of the whole. Refuses runs that hold no segment, and a file that is not as it was.
 * @param runs of which the others are passed over
 * @param at the operand or option to blame where a run holds no segment
 */
export async function longDensities(
  runs: Pick<RunsValue, 'runs'>,
  window: WindowValue,
  reach: Reach,
  at = 'using',
): Promise<Result<ReadonlyMap<Channel, Density>>> {
  const found = new Map<Channel, Density>();
  const long = runs.runs.filter(isLong);
  const refusal = long.length === 0 ? undefined : whyTooShort(runs.runs, window, at);
  if (refusal !== undefined) return refusal;
  for (const run of long) {
    const sums = await summed(run, window, reach);
    if (!sums.ok) return sums;
    signalsIn(run).forEach((channel, k) => found.set(channel, sums.value[k].density()));
  }
  return success(found);
}

async function summed(run: LongerRun, window: WindowValue, reach: Reach): Promise<Result<WelchSum[]>> {
  const shape = windowShape(window.shape, segmentSamples(run, window));
  const options = { shape, rate: run.rate, overlap: window.overlap, cancelled: reach.watch.cancelled };
  const sums = signalsIn(run).map(() => new WelchSum(options));
  const refused = await eachBlock(run, reach, `spectrum of ${run.label}`, (block) => {
    for (const { stretch, signals, begins, ends } of alongStretches(run.stretches, block))
      sums.forEach((sum, k) => {
        if (begins) sum.beginStretch(stretch.to - stretch.from);
        sum.addBlock(signals[k]);
        if (ends) sum.endStretch();
      });
  });
  return refused ?? success(sums);
}
