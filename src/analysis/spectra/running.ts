import { answered, type Answer, type Refused } from '../../result/result.ts';
import { moments } from '../../signal/levels.ts';
import { resultantRunning } from '../../signal/resultant.ts';
import type { Watch } from '../../values/ports.ts';
import { axesOf, type Channel, type Run } from '../../values/run.ts';
import type { RunningEntry, RunningValue } from '../../values/running.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/spectra.ts';
import { pieces, whyUneven } from '../recordings/runs.ts';
import { joined } from '../recordings/uniformRate.ts';
import { together, type RunWarning } from '../together.ts';
import { longestStretch } from './segments.ts';

/** A span of fewer samples follows the wave rather than its level (engineering choice). */
const fewSamples = 8;

/**
 * Running r.m.s. of every run and channel, with the mean of the run removed, and its maximum (ISO 2631-1:1997, 6.3.1,
 * linear averaging). Refuses runs that are not sampled evenly, and spans without a sample or longer than any unbroken
 * stretch of a run.
 * @param over length of the span in s
 */
export function runningLevels(runs: RunsValue, over: number, watch: Watch): Answer<RunningValue> {
  const uneven = whyUneven(runs);
  if (uneven !== undefined) return uneven;
  const entries: RunningEntry[] = [];
  const warnings: RunWarning[] = [];
  for (const run of runs.runs) {
    watch.progress(entries.length / runs.runs.length, `running r.m.s. of ${run.label}`);
    const refusal = whyNoSpan(run, over);
    if (refusal !== undefined) return refusal;
    const samples = Math.round(over * run.rate);
    if (samples < fewSamples) warnings.push(fewIn(run, over, samples));
    for (const channel of run.channels) entries.push(runningOf(run, channel, samples));
  }
  return answered({ kind: 'running', set: runs.set, over, entries }, together(warnings));
}

function whyNoSpan(run: Run, over: number): Refused | undefined {
  const samples = Math.round(over * run.rate);
  if (samples < 1) return refuse('running.short', { over, run: run.label }, 'over');
  const longest = longestStretch(run);
  if (longest >= samples) return undefined;
  return refuse('running.long', { over, run: run.label, longest: longest / run.rate }, 'over');
}

function fewIn({ label }: Run, over: number, samples: number): RunWarning {
  const code = 'running.few';
  return { code, of: label, tell: (others) => tell(code, { over, samples, run: label, others }) };
}

/**
 * Running r.m.s. of a channel, of a resultant that of its vector, over `length` samples, in its unit, at the end of each span in s; its maximum. Stretches
 * that are shorter are left out: the run holds at least one that is not.
 */
export function runningOf(run: Run, channel: Channel, length: number): RunningEntry {
  const axes = axesOf(channel);
  const means = axes.map(({ samples }) => moments(samples).mean);
  const parts = axes.map((axis) => pieces(run, axis));
  const times: Float64Array[] = [];
  const values: Float64Array[] = [];
  let largest = -1;
  let largestAt = 0;
  run.stretches.forEach(({ from, to, start }, s) => {
    if (to - from < length) return;
    const found = resultantRunning(
      parts.map((axis) => axis[s]),
      length,
      means,
    );
    values.push(found.values);
    times.push(found.values.map((_, i) => start + (length - 1 + i) / run.rate));
    if (found.maximum > largest) {
      largest = found.maximum;
      largestAt = start + found.maximumAt / run.rate;
    }
  });
  return { run, channel, times: joined(times), rms: joined(values), largest, largestAt };
}
