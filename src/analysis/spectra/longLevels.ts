import { success, type Result } from '../../result/result.ts';
import { MeanSum, PowerSums, type FirstLook } from '../../signal/blockSums.ts';
import { momentsAbout, type Levels, type Moments } from '../../signal/levels.ts';
import { LevelSums } from '../../signal/longLevels.ts';
import { LongRunning } from '../../signal/longRunning.ts';
import type { Channel } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import {
  alongStretches,
  eachBlock,
  ofLongSignals,
  signalsIn,
  type ByStretches,
  type LongerRun,
  type Reach,
} from '../recordings/longRuns.ts';

/** Levels of a channel that is too large for memory, in its unit. */
export interface LongLevels {
  readonly levels: Levels;
  readonly moments: Moments;
  /** Largest running r.m.s., and the time in s on the recording's axis at which its span ends; undefined where none is whole. */
  readonly running: { readonly largest: number; readonly largestAt: number } | undefined;
}

/**
 * Levels of the channels of those runs that are too large for memory, to the last digit those that `levels` gives of the
 * whole, in three passes over the file. Refuses a file that is not as it was.
 * @param runs of which the others are passed over
 * @param over length of the span of the running r.m.s. in s
 */
export const longLevels = (
  runs: Pick<RunsValue, 'runs'>,
  over: number,
  reach: Reach,
): Promise<Result<ReadonlyMap<Channel, LongLevels>>> => ofLongSignals(runs, (run) => levelsOfRun(run, over, reach));

async function levelsOfRun(run: LongerRun, over: number, reach: Reach): Promise<Result<LongLevels[]>> {
  const first = await firstLooks(run, reach);
  if (!first.ok) return first;
  const sums = first.value.map((one) => new LevelSums(one));
  const what = `levels of ${run.label}`;
  const second = await eachBlock(run, reach, what, ({ signals }) => sums.forEach((sum, k) => sum.add(signals[k])));
  if (second !== undefined) return second;
  const largest = sums.map(({ moments: { mean } }) => largestRunning(run, mean, over));
  const third = await eachBlock(run, reach, what, (block) => {
    alongStretches(run.stretches, block, largest);
    sums.forEach((sum, k) => sum.addAgain(block.signals[k]));
  });
  return third ?? success(sums.map(({ levels, moments }, k) => ({ levels, moments, running: largest[k].running })));
}

async function firstLooks(run: LongerRun, reach: Reach): Promise<Result<FirstLook[]>> {
  const sums = signalsIn(run).map(() => new MeanSum());
  const refused = await eachBlock(run, reach, `mean of ${run.label}`, ({ signals }) =>
    sums.forEach((sum, k) => sum.add(signals[k])),
  );
  return refused ?? success(sums.map(({ found }) => found));
}

/**
 * Means of the signals of a run that is too large for memory, in the signals' units: to the last digit those of the whole,
 * which take two passes over the file. Refuses a file that is not as it was.
 */
export async function longMeans(run: LongerRun, reach: Reach): Promise<Result<number[]>> {
  const first = await firstLooks(run, reach);
  if (!first.ok) return first;
  const sums = first.value.map(({ mean }) => new PowerSums(mean));
  const refused = await eachBlock(run, reach, `mean of ${run.label}`, ({ signals }) =>
    sums.forEach((sum, k) => sum.add(signals[k])),
  );
  return refused ?? success(sums.map(({ found }, k) => meanOf(first.value[k], found)));
}

const meanOf = ({ mean, count }: FirstLook, powers: readonly number[]): number =>
  momentsAbout(mean, powers, count).mean;

/** The largest running r.m.s. of one signal of a run. */
function largestRunning(run: LongerRun, mean: number, over: number): ByStretches & Pick<LongLevels, 'running'> {
  let running: LongLevels['running'];
  const taker = runningOver(run, mean, over, (values, timeOf) => {
    for (let i = 0; i < values.length; i++)
      if (values[i] > (running?.largest ?? -1)) running = { largest: values[i], largestAt: timeOf(i) };
  });
  return {
    ...taker,
    get running() {
      return running;
    },
  };
}

/**
 * Hands on the running r.m.s. of a signal that comes stretch by stretch, and the times in s on the recording's axis at which
 * the spans end; nothing where a span is shorter than a sample.
 * @param mean what is taken from each sample first  @param over length of the span in s
 */
export function runningOver(
  { rate }: LongerRun,
  mean: number,
  over: number,
  take: (values: Float64Array, timeOf: (index: number) => number) => void,
): ByStretches {
  let from = 0;
  const length = Math.round(over * rate);
  if (length < 1) return { add: () => undefined };
  const sum = new LongRunning(length, mean, (values, first) => take(values, (i) => from + (first + i) / rate));
  return { begin: ({ start }) => void (from = start), add: (samples) => sum.add(samples), end: () => sum.end() };
}
