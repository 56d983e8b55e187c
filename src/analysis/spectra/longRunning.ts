import { success, type Result } from '../../result/result.ts';
import type { Channel } from '../../values/run.ts';
import type { RunningEntry } from '../../values/running.ts';
import type { RunsValue } from '../../values/runs.ts';
import {
  alongStretches,
  eachBlock,
  ofLongSignals,
  signalsIn,
  type LongerRun,
  type Reach,
} from '../recordings/longRuns.ts';
import { longMeans, runningOver } from './longLevels.ts';

/** Parts of the numbers that stand in memory at most which the values may be, and values that are kept of more. */
const [share, kept] = [8, 2 ** 17];

/**
 * Running r.m.s. of the channels of those runs that are too large for memory, in their units, to the last digit those of
 * the whole. Where there are too many values for memory, of every so many the lowest and the highest are kept. Refuses a
 * file that is not as it was. Why there is no span in a run is told by who asks for it.
 * @param runs of which the others are passed over, as are those of which a sample is longer than a span
 * @param over length of the span in s
 */
export const longRunning = (
  { runs }: RunsValue,
  over: number,
  reach: Reach,
): Promise<Result<ReadonlyMap<Channel, RunningEntry>>> =>
  ofLongSignals({ runs: runs.filter(({ rate }) => Math.round(over * rate) >= 1) }, (run) =>
    runningOf(run, over, reach),
  );

async function runningOf(run: LongerRun, over: number, reach: Reach): Promise<Result<RunningEntry[]>> {
  const means = await longMeans(run, reach);
  if (!means.ok) return means;
  const signals = signalsIn(run);
  const values = run.long.to - run.long.from;
  const room = run.long.recording.sizes.most / share;
  const of = Math.ceil((2 * values) / Math.min(kept, room));
  const stride = values * signals.length <= room ? 1 : of;
  const gathered = signals.map(() => new Gathered(stride));
  const takers = gathered.map((one, k) =>
    runningOver(run, means.value[k], over, (rms, timeOf) => one.add(rms, timeOf)),
  );
  const refused = await eachBlock(run, reach, `running r.m.s. of ${run.label}`, (block) =>
    alongStretches(run.stretches, block, takers),
  );
  return refused ?? success(signals.map((channel, k) => gathered[k].entry(run, channel)));
}

/** Values of a running r.m.s. as they come, thinned where that is wanted. */
class Gathered {
  readonly #stride: number;
  readonly #times: number[] = [];
  readonly #rms: number[] = [];
  #largest = -1;
  #largestAt = 0;

  /** @param stride of how many values the lowest and the highest are kept */
  constructor(stride: number) {
    this.#stride = stride;
  }

  add(rms: Float64Array, timeOf: (index: number) => number): void {
    for (let from = 0; from < rms.length; from += this.#stride) {
      let [low, high] = [from, from];
      const to = Math.min(rms.length, from + this.#stride);
      for (let i = from + 1; i < to; i++) {
        if (rms[i] < rms[low]) low = i;
        if (rms[i] > rms[high]) high = i;
      }
      if (rms[high] > this.#largest) [this.#largest, this.#largestAt] = [rms[high], timeOf(high)];
      for (const i of low === high ? [low] : [Math.min(low, high), Math.max(low, high)]) {
        this.#times.push(timeOf(i));
        this.#rms.push(rms[i]);
      }
    }
  }

  entry(run: LongerRun, channel: Channel): RunningEntry {
    const [times, rms] = [Float64Array.from(this.#times), Float64Array.from(this.#rms)];
    const thinned = this.#stride === 1 ? {} : { thinned: this.#stride };
    return { run, channel, times, rms, largest: this.#largest, largestAt: this.#largestAt, ...thinned };
  }
}
