import { answered, type Answer, type Refused } from '../../result/result.ts';
import { moments } from '../../signal/levels.ts';
import { resultantRunning, resultantRunningAt } from '../../signal/resultant.ts';
import { firstWhole, type Running } from '../../signal/running.ts';
import type { Stretch } from '../../signal/stretch.ts';
import type { Watch } from '../../values/ports.ts';
import { axesOf, stretchEnd, type Channel, type Run } from '../../values/run.ts';
import type { RunningEntry, RunningValue } from '../../values/running.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/spectra.ts';
import { joined } from '../recordings/uniformRate.ts';
import { together, type RunWarning } from '../together.ts';
import { shortIn, shortStretches } from './segments.ts';

/** A span of fewer samples follows the wave rather than its level (engineering choice). */
const fewSamples = 8;

const none = new Float64Array(0);

/**
 * Running r.m.s. of every run and channel, with the mean of the run removed, and its maximum (ISO 2631-1:1997, 6.3.1,
 * linear averaging), of the samples as logged: where they were not taken evenly a span is of their own times. Refuses
 * spans without a sample or longer than any unbroken stretch of a run.
 * @param over length of the span in s
 * @param known entries that were made before, of runs that are too large for memory
 */
export function runningLevels(
  runs: RunsValue,
  over: number,
  watch: Watch,
  known: ReadonlyMap<Channel, RunningEntry> = new Map(),
): Answer<RunningValue> {
  const entries: RunningEntry[] = [];
  const warnings: RunWarning[] = [];
  for (const run of runs.runs) {
    watch.progress(entries.length / runs.runs.length, `running r.m.s. of ${run.label}`);
    const refusal = whyNoSpan(run, over);
    if (refusal !== undefined) return refusal;
    const samples = Math.round(over * run.rate);
    if (samples < fewSamples) warnings.push(fewIn(run, over, samples));
    warnings.push(...shortStretches(run, 'span', over, (stretch) => holds(run, stretch, over)));
    const times = run.channels.every((channel) => known.has(channel)) ? none : spanEnds(run, over);
    const own = run.channels.map((channel) => known.get(channel) ?? runningOf(run, channel, over, times));
    warnings.push(...thinnedIn(own));
    entries.push(...own);
  }
  return answered({ kind: 'running', set: runs.set, over, entries }, together(warnings));
}

/** Told of a run once. */
function thinnedIn([entry]: readonly RunningEntry[]): RunWarning[] {
  const { run, thinned } = entry;
  if (thinned === undefined) return [];
  const code = 'running.thinned';
  return [{ code, of: run.label, tell: (others) => tell(code, { run: run.label, of: thinned, others }) }];
}

function whyNoSpan(run: Run, over: number): Refused | undefined {
  const samples = Math.round(over * run.rate);
  if (samples < 1) return refuse('running.short', { over, run: run.label }, 'over');
  if (holdsSpan(run, over)) return undefined;
  const longest = run.stretches.reduce((most, one) => Math.max(most, stretchEnd(run, one) - one.start), 0);
  return refuse('running.long', { over, run: run.label, longest }, 'over');
}

/** Whether an unbroken stretch of a run is as long as a span. @param over length of the span in s */
export const holdsSpan = (run: Run, over: number): boolean =>
  run.stretches.some((stretch) => holds(run, stretch, over));

/** What of a run stands in stretches that are shorter than a span of `over` s; none where all hold one. */
export const withoutSpan = (run: Run, over: number): ReturnType<typeof shortIn> =>
  shortIn(run, (stretch) => holds(run, stretch, over));

const holds = (run: Run, stretch: Stretch, over: number): boolean =>
  run.stamps === undefined
    ? stretch.to - stretch.from >= Math.round(over * run.rate)
    : stretchEnd(run, stretch) - stretch.start >= over;

function fewIn({ label }: Run, over: number, samples: number): RunWarning {
  const code = 'running.few';
  return { code, of: label, tell: (others) => tell(code, { over, samples, run: label, others }) };
}

/**
 * Running r.m.s. of a channel, of a resultant that of its vector, over spans of so many s, in its unit; its maximum. Stretches that
 * are shorter are left out: the run holds at least one that is not.
 * @param times as `spanEnds` has them, shared by the channels of a run
 */
function runningOf(run: Run, channel: Channel, over: number, times: Float64Array): RunningEntry {
  const rms = new Float64Array(times.length);
  let at = 0;
  const largest = largestRunning(run, channel, over, undefined, (values) => {
    rms.set(values, at);
    at += values.length;
  });
  return { run, channel, times, rms, ...largest };
}

/** The end of each span of so many s in the stretches of a run that hold one, in s. */
function spanEnds(run: Run, over: number): Float64Array {
  const { rate, stamps } = run;
  const ends = run.stretches
    .filter((stretch) => holds(run, stretch, over))
    .map(({ from, to, start }) => {
      if (stamps !== undefined) {
        const times = stamps.times.subarray(from, to);
        return times.subarray(firstWhole(times, over, 1 / rate));
      }
      const length = Math.round(over * rate);
      const found = new Float64Array(to - from - length + 1);
      for (let i = 0; i < found.length; i++) found[i] = start + (length - 1 + i) / rate;
      return found;
    });
  return joined(ends);
}

/**
 * The maximum of a channel's running r.m.s. over spans of so many s, in its unit, and the time in s at which its span ends.
 * @param means of the channel's axes, where they are known already
 * @param take is given the values, some after the others
 */
export function largestRunning(
  run: Run,
  channel: Channel,
  over: number,
  means = axesOf(channel).map(({ samples }) => moments(samples).mean),
  take?: (values: Float64Array) => void,
): Pick<RunningEntry, 'largest' | 'largestAt'> {
  let [largest, largestAt] = [-1, 0];
  for (const stretch of run.stretches) {
    if (!holds(run, stretch, over)) continue;
    for (const { values, maximum, maximumAt } of runningIn(run, channel, stretch, { over, means })) {
      take?.(values);
      if (maximum > largest) [largest, largestAt] = [maximum, maximumAt];
    }
  }
  return { largest, largestAt };
}

/** Values of a running r.m.s.; `maximumAt` is the time in s at which the span of the largest ends. */
type RunningPart = Pick<Running, 'values' | 'maximum' | 'maximumAt'>;

/** About how many values are made at a time of a long stretch, which as a whole would take as much memory as its samples. */
const atOnce = 2 ** 16;

/** The running r.m.s. of one stretch, some values at a time: the same as of all at once, which builds up its sums afresh every span. */
function* runningIn(
  { rate, stamps }: Run,
  channel: Channel,
  { from, to, start }: Stretch,
  { over, means }: { readonly over: number; readonly means: readonly number[] },
): Generator<RunningPart> {
  const axes = axesOf(channel).map(({ samples }) => samples.subarray(from, to));
  if (stamps !== undefined) {
    const times = stamps.times.subarray(from, to);
    const { values, maximum, maximumAt } = resultantRunningAt(axes, times, { tau: over, step: 1 / rate, means });
    yield { values, maximum, maximumAt: times[maximumAt] };
    return;
  }
  const length = Math.round(over * rate);
  const most = length * Math.max(1, Math.floor(atOnce / length));
  const count = to - from - length + 1;
  for (let first = 0; first < count; first += most) {
    const end = Math.min(count, first + most) + length - 1;
    const some = axes.map((samples) => samples.subarray(first, end));
    const { values, maximum, maximumAt } = resultantRunning(some, length, means);
    yield { values, maximum, maximumAt: start + (first + maximumAt) / rate };
  }
}
