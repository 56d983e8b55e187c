import { removeLine, removeMean } from '../../signal/detrend.ts';
import type { RunsValue } from '../../values/runs.ts';
import { withSamples } from '../recordings/runs.ts';

/** The runs without the mean of each channel, or without its least-squares line over the times of the whole run. */
export function detrended(runs: RunsValue, what: 'mean' | 'linear'): RunsValue {
  const level = runs.runs.map((run) =>
    withSamples(run, what === 'linear' ? 'line removed' : 'mean removed', ({ samples }) => {
      const into = new Float64Array(samples.length);
      if (what === 'linear') removeLine(samples, into, run.stretches, run.rate, run.stamps?.times);
      else removeMean(samples, into);
      return { samples: into, includesStatic: false };
    }),
  );
  return { ...runs, runs: level };
}
