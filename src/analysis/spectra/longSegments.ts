import { success, type Result } from '../../result/result.ts';
import type { WelchOptions } from '../../signal/welch.ts';
import { windowShape } from '../../signal/windows.ts';
import type { Channel } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { WindowValue } from '../../values/window.ts';
import {
  alongStretches,
  eachBlock,
  isLong,
  ofLongSignals,
  signalsIn,
  type ByStretches,
  type LongerRun,
  type Reach,
} from '../recordings/longRuns.ts';
import { segmentSamples, whyTooShort } from './segments.ts';

/** What a signal's segments are taken for. */
export interface OfSegments<T> {
  readonly window: WindowValue;
  /** As the reader is told: `spectrum`. */
  readonly what: string;
  /** The operand or option to blame where a run holds no segment. */
  readonly at: string;
  /** Takes one signal, and has what was found once all of it was given. */
  readonly make: (run: LongerRun, options: WelchOptions) => ByStretches & { readonly found: T };
}

/**
 * What is found of the segments of each signal of those runs that are too large for memory, in one pass over each. Refuses
 * runs that hold no segment, and a file that is not as it was.
 * @param runs of which the others are passed over
 */
export async function bySegments<T>(
  runs: Pick<RunsValue, 'runs'>,
  { window, what, at, make }: OfSegments<T>,
  reach: Reach,
): Promise<Result<ReadonlyMap<Channel, T>>> {
  const refusal = runs.runs.some(isLong) ? whyTooShort(runs.runs, window, at) : undefined;
  if (refusal !== undefined) return refusal;
  return ofLongSignals(runs, async (run) => {
    const shape = windowShape(window.shape, segmentSamples(run, window));
    const options = { shape, rate: run.rate, overlap: window.overlap, cancelled: reach.watch.cancelled };
    const made = signalsIn(run).map(() => make(run, options));
    const refused = await eachBlock(run, reach, `${what} of ${run.label}`, (block) =>
      alongStretches(run.stretches, block, made),
    );
    return refused ?? success(made.map(({ found }) => found));
  });
}
