import { success, type Result } from '../../result/result.ts';
import { LongRunning } from '../../signal/longRunning.ts';
import type { Channel } from '../../values/run.ts';
import type { RunningEntry } from '../../values/running.ts';
import type { RunsValue } from '../../values/runs.ts';
import { alongStretches, eachBlock, isLong, signalsIn, type LongerRun, type Reach } from '../recordings/longRuns.ts';
import { firstLooks } from './longLevels.ts';

/** Parts of the numbers that stand in memory at most which the values may be, and values that are kept of more. */
const [share, kept] = [8, 2 ** 17];

/**
 * Running r.m.s. of the channels of those runs that are too large for memory, in their units. Where there are too many
 * values for memory, of every so many the lowest and the highest are kept. Refuses a file that is not as it was.
 * @param runs of which the others are passed over
 * @param over length of the span in s
 */
export async function longRunning(
  runs: RunsValue,
  over: number,
  reach: Reach,
): Promise<Result<ReadonlyMap<Channel, RunningEntry>>> {
  const found = new Map<Channel, RunningEntry>();
  for (const run of runs.runs.filter(isLong)) {
    const length = Math.round(over * run.rate);
    // Why there is no span is told by who asks for it.
    if (length < 1) continue;
    const looks = await firstLooks(run, reach);
    if (!looks.ok) return looks;
    const signals = signalsIn(run);
    const values = run.long.to - run.long.from;
    const room = run.long.recording.sizes.most / share;
    const of = Math.ceil((2 * values) / Math.min(kept, room));
    const stride = values * signals.length <= room ? 1 : of;
    let start = 0;
    const gathered = signals.map(() => new Gathered(run.rate, stride));
    const sums = looks.value.map(
      ({ mean }, k) => new LongRunning(length, mean, (rms, first) => gathered[k].add(rms, start, first)),
    );
    const refused = await eachBlock(run, reach, `running r.m.s. of ${run.label}`, (block) => {
      for (const part of alongStretches(run.stretches, block)) {
        start = part.stretch.start;
        sums.forEach((sum, k) => {
          sum.add(part.signals[k]);
          if (part.ends) sum.end();
        });
      }
    });
    if (refused !== undefined) return refused;
    signals.forEach((channel, k) => found.set(channel, gathered[k].entry(run, channel)));
  }
  return success(found);
}

/** Values of a running r.m.s. as they come, thinned where that is wanted. */
class Gathered {
  readonly #rate: number;
  readonly #stride: number;
  readonly #times: number[] = [];
  readonly #rms: number[] = [];
  #largest = -1;
  #largestAt = 0;

  constructor(rate: number, stride: number) {
    this.#rate = rate;
    this.#stride = stride;
  }

  /** @param start of the stretch in s  @param first index in it of the sample with which the first value's span ends */
  add(rms: Float64Array, start: number, first: number): void {
    const timeOf = (i: number): number => start + (first + i) / this.#rate;
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
