import { success, type Result } from '../../result/result.ts';
import { LevelSums, MeanSum, type FirstLook } from '../../signal/longLevels.ts';
import type { Levels, Moments } from '../../signal/levels.ts';
import { LongRunning } from '../../signal/longRunning.ts';
import type { Channel } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { alongStretches, eachBlock, isLong, signalsIn, type LongerRun, type Reach } from '../recordings/longRuns.ts';

/** Levels of a channel that is too large for memory, in its unit. */
export interface LongLevels {
  readonly levels: Levels;
  readonly moments: Moments;
  /** Largest running r.m.s., and the time in s on the recording's axis at which its span ends; undefined where none is whole. */
  readonly running: { readonly largest: number; readonly largestAt: number } | undefined;
}

/**
 * Levels of the channels of those runs that are too large for memory, as `levels` gives them but for the last digits, in
 * three passes over the file at most. Refuses a file that is not as it was.
 * @param runs of which the others are passed over
 * @param over length of the span of the running r.m.s. in s
 */
export async function longLevels(
  runs: RunsValue,
  over: number,
  reach: Reach,
): Promise<Result<ReadonlyMap<Channel, LongLevels>>> {
  const found = new Map<Channel, LongLevels>();
  for (const run of runs.runs.filter(isLong)) {
    const first = await firstLooks(run, reach);
    if (!first.ok) return first;
    const sums = first.value.map((one) => new LevelSums(one));
    const largest = new LargestRunning(run, first.value, over);
    const what = `levels of ${run.label}`;
    const second = await eachBlock(run, reach, what, (block) => {
      for (const part of alongStretches(run.stretches, block)) largest.add(part);
      sums.forEach((sum, k) => sum.add(block.signals[k]));
    });
    if (second !== undefined) return second;
    if (sums.some((sum) => sum.isUnsettled)) {
      const third = await eachBlock(run, reach, what, ({ signals }) =>
        sums.forEach((sum, k) => sum.addAgain(signals[k])),
      );
      if (third !== undefined) return third;
    }
    signalsIn(run).forEach((channel, k) =>
      found.set(channel, { levels: sums[k].levels, moments: sums[k].moments, running: largest.of(k) }),
    );
  }
  return success(found);
}

/**
 * Counts, means and extremes of the signals of a run that is too large for memory, in the signals' units. Refuses a file
 * that is not as it was.
 */
export async function firstLooks(run: LongerRun, reach: Reach): Promise<Result<FirstLook[]>> {
  const sums = signalsIn(run).map(() => new MeanSum());
  const refused = await eachBlock(run, reach, `mean of ${run.label}`, ({ signals }) =>
    sums.forEach((sum, k) => sum.add(signals[k])),
  );
  return refused ?? success(sums.map(({ found }) => found));
}

/** The largest running r.m.s. of each signal of a run. */
class LargestRunning {
  readonly #sums: readonly LongRunning[];
  readonly #found: { largest: number; largestAt: number }[];
  readonly #run: LongerRun;
  #start = 0;

  constructor(run: LongerRun, looks: readonly FirstLook[], over: number) {
    this.#run = run;
    this.#found = looks.map(() => ({ largest: -1, largestAt: 0 }));
    const length = Math.round(over * run.rate);
    this.#sums =
      length < 1
        ? []
        : looks.map(({ mean }, k) => new LongRunning(length, mean, (values, first) => this.#take(k, values, first)));
  }

  add({ stretch, signals, ends }: ReturnType<typeof alongStretches>[number]): void {
    this.#start = stretch.start;
    this.#sums.forEach((sum, k) => {
      sum.add(signals[k]);
      if (ends) sum.end();
    });
  }

  of(k: number): LongLevels['running'] {
    return this.#found[k].largest < 0 ? undefined : this.#found[k];
  }

  #take(k: number, values: Float64Array, first: number): void {
    const found = this.#found[k];
    for (let i = 0; i < values.length; i++) {
      if (values[i] <= found.largest) continue;
      found.largest = values[i];
      found.largestAt = this.#start + (first + i) / this.#run.rate;
    }
  }
}
