import type { Refused } from '../../result/result.ts';
import type { Run } from '../../values/run.ts';
import type { WindowValue } from '../../values/window.ts';
import { refuse } from '../messages/spectra.ts';

/** Fewer samples than this make no spectrum. */
const fewestSamples = 4;

/** Samples of a segment: round(length x rate), so that the bin spacing is exactly rate / samples. */
export const segmentSamples = (run: Run, window: WindowValue): number => Math.round(window.length * run.rate);

/** Samples of a run's longest unbroken stretch. */
export const longestStretch = ({ stretches }: Run): number => Math.max(...stretches.map(({ from, to }) => to - from));

/**
 * Why one of the runs can't be cut into segments of a window, or undefined where all can: it has too few samples in a
 * segment, or no unbroken stretch holds one.
 * @param runs the runs, in whose order they are looked at
 * @param at the operand or option that is to blame
 */
export function whyTooShort(runs: readonly Run[], window: WindowValue, at: string): Refused | undefined {
  const { length } = window;
  for (const run of runs) {
    const { label, rate, stretches } = run;
    const samples = segmentSamples(run, window);
    if (samples < fewestSamples) return refuse('window.long', { why: 'samples', length, samples, rate }, at);
    const longest = longestStretch(run);
    if (longest < samples) {
      const gaps = stretches.length > 1;
      return refuse('window.long', { why: 'stretch', run: label, length, longest: longest / rate, gaps }, at);
    }
  }
  return undefined;
}
