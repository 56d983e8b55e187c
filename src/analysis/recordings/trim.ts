import { gapFinding } from '../../readers/checks/gaps.ts';
import { missingSamples } from '../../readers/clock/missing.ts';
import type { Clock, Finding } from '../../readers/recording.ts';
import { success, type Result } from '../../result/result.ts';
import { trimStretches, type Stretch } from '../../signal/stretch.ts';
import { changed } from '../../values/resultant.ts';
import { extent, type Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { toMillisecond } from '../amounts.ts';
import { refuse } from '../messages/recordings.ts';
import { touches } from './faults.ts';

/** A stretch of a run in s from its first sample, by two of the three at most: the rest is the run's own. */
export interface Span {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  readonly length?: number | undefined;
}

/**
 * A stretch of each run, its samples views of the run's own. Refuses a stretch that reaches outside a run, or that
 * holds no sample.
 * @param at what a refusal is to blame
 */
export function trimmed(runs: RunsValue, span: Span, at: string): Result<RunsValue> {
  const kept: Run[] = [];
  for (const run of runs.runs) {
    const length = extent(run);
    const { from, to } = endsOf(span, length);
    // One sample of grace: a run of 85 s may end a hair short of it on its own clock.
    if (from < 0 || to > length + 1 / run.rate || from >= length)
      return refuse('trim.outside', { run: run.label, length, from, to }, at);
    const cut = cutRun(run, from, to);
    if (cut === undefined) return refuse('trim.empty', { run: run.label, from, to }, at);
    kept.push(cut);
  }
  return success({ ...runs, runs: kept });
}

function endsOf({ from, to, length }: Span, whole: number): { readonly from: number; readonly to: number } {
  const begin = from ?? (to !== undefined && length !== undefined ? to - length : 0);
  return { from: begin, to: to ?? (length !== undefined ? begin + length : whole) };
}

/** The run between two times from its first sample; its samples are views of the run's own. */
function cutRun(run: Run, from: number, to: number): Run | undefined {
  const origin = run.stretches[0].start;
  const kept =
    run.stamps === undefined
      ? trimStretches(run.stretches, run.rate, origin + from, origin + to)
      : timedStretches(run.stretches, run.stamps.times, origin + from, origin + to);
  if (kept.length === 0) return undefined;
  const first = kept[0].from;
  const last = kept[kept.length - 1].to;
  const { long } = run;
  const findings = run.findings.filter((finding) => touches(finding, origin + from, origin + to));
  const clock = { stretches: kept, rate: run.rate, times: run.stamps?.times };
  return {
    ...run,
    channels: run.channels.map((channel) =>
      changed(channel, (signal) =>
        signal.away === undefined
          ? { ...signal, samples: signal.samples.subarray(first, last) }
          : { ...signal, away: last - first },
      ),
    ),
    stretches: kept.map((stretch) => ({ ...stretch, from: stretch.from - first, to: stretch.to - first })),
    start: kept[0].start,
    untrimmed: run.untrimmed ?? run,
    findings: findings.flatMap((finding) => (finding.code === 'gap' ? (gapsLeft(clock) ?? []) : [finding])),
    ...(long === undefined ? {} : { long: { ...long, from: long.from + first, to: long.from + last } }),
    ...(run.stamps === undefined ? {} : { stamps: { ...run.stamps, times: run.stamps.times.subarray(first, last) } }),
    history: [...run.history, `trim ${toMillisecond(from)} to ${toMillisecond(to)}`],
  };
}

/** What is told of the gaps of the part that is used, and not of those of the whole recording. */
const gapsLeft = (clock: Pick<Clock, 'stretches' | 'rate' | 'times'>): Finding | undefined =>
  gapFinding(clock, { missing: missingSamples(clock.stretches, clock.rate) }, () => undefined);

/** As `trimStretches`, by the readings' own times. */
function timedStretches(stretches: readonly Stretch[], times: Float64Array, begin: number, end: number): Stretch[] {
  return stretches.flatMap(({ from, to }) => {
    let first = from;
    while (first < to && times[first] < begin) first++;
    let last = first;
    while (last < to && times[last] < end) last++;
    return last > first ? [{ from: first, to: last, start: times[first] }] : [];
  });
}
