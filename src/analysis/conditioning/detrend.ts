import type { Refused, Result } from '../../result/result.ts';
import { success } from '../../result/result.ts';
import { removeLine, removeMean } from '../../signal/detrend.ts';
import type { RunsValue } from '../../values/runs.ts';
import { whyUneven, withSamples } from '../recordings/runs.ts';

/**
 * The runs without the mean of each channel, or without its least-squares line over the whole run.
 * Refuses a line of runs that are sampled too unevenly for a rate.
 */
export function detrended(runs: RunsValue, what: 'mean' | 'linear'): Result<RunsValue> {
  const uneven: Refused | undefined = what === 'linear' ? whyUneven(runs) : undefined;
  if (uneven !== undefined) return uneven;
  const level = runs.runs.map((run) =>
    withSamples(run, what === 'linear' ? 'line removed' : 'mean removed', ({ samples }) => {
      const into = new Float64Array(samples.length);
      if (what === 'linear') removeLine(samples, into, run.stretches, run.rate);
      else removeMean(samples, into);
      return { samples: into, includesStatic: false };
    }),
  );
  return success({ ...runs, runs: level });
}
