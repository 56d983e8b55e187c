import { answered, type Answer, type Refused } from '../../result/result.ts';
import { rationalRatio, resampled as atRatio, type Ratio } from '../../signal/resample.ts';
import { formatNumber } from '../../units/format.ts';
import type { Watch } from '../../values/ports.ts';
import { sampleCount, type Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/recordings.ts';
import { pieces } from '../recordings/runs.ts';
import { atUniformRate, ofPieces, widestStep } from '../recordings/uniformRate.ts';
import { together, type RunWarning } from '../together.ts';

/** Rates may change by so much either way; more is a slip of the unit. */
const largestFactor = 1000;
/** Samples of a channel, beyond which a machine’s memory is at stake. */
const mostSamples = 200_000_000;

/**
 * The runs at another rate, each unbroken stretch by itself; uneven readings are brought to their mean rate first.
 * Refuses a rate more than 1000 times off a run's own, more than 200 million samples, and readings that do not
 * follow each other in time.
 * @param rate the new rate in Hz; it is met to a millionth
 */
export function resampled(runs: RunsValue, rate: number, watch: Watch): Answer<RunsValue> {
  const warnings: RunWarning[] = [];
  const done: Run[] = [];
  for (const run of runs.runs) {
    watch.progress(done.length / runs.runs.length, `resampling ${run.label}`);
    const refusal = whyNoResampling(run, rate);
    if (refusal !== undefined) return refusal;
    const even = atUniformRate(run);
    if (even.stretches.length === 0) return refuse('resample.empty', { run: run.label }, 'runs');
    warnings.push(...doubts(run, rate));
    done.push(atRate(even, rationalRatio(rate / even.rate), watch));
  }
  return answered({ ...runs, runs: done }, together(warnings));
}

function whyNoResampling(run: Run, rate: number): Refused | undefined {
  const factor = rate / run.rate;
  if (factor > largestFactor || factor < 1 / largestFactor)
    return refuse('resample.factor', { run: run.label, from: run.rate, to: rate, most: largestFactor }, 'rate');
  return sampleCount(run) * factor > mostSamples
    ? refuse('resample.large', { run: run.label, most: mostSamples }, 'rate')
    : undefined;
}

function doubts(run: Run, rate: number): RunWarning[] {
  const { label: of, stamps } = run;
  const found: RunWarning[] = [];
  if (rate > run.rate * (1 + 1e-6))
    found.push({
      code: 'resample.up',
      of,
      tell: (others) => tell('resample.up', { run: of, rate: run.rate, others }),
    });
  if (stamps !== undefined) {
    const step = widestStep(run);
    found.push({
      code: 'resample.uneven',
      of,
      tell: (others) => tell('resample.uneven', { run: of, step, others }),
    });
  }
  return found;
}

function atRate(run: Run, ratio: Ratio, { cancelled }: Watch): Run {
  if (ratio.up === ratio.down) return run;
  const { untrimmed: _untrimmed, ...rest } = run;
  const rate = (run.rate * ratio.up) / ratio.down;
  const starts = run.stretches.map(({ start }) => start);
  return {
    ...rest,
    rate,
    ...ofPieces(run, starts, (signal) => pieces(run, signal).map((piece) => atRatio(piece, ratio, cancelled))),
    history: [...run.history, `resampled from ${formatNumber(run.rate, 6)} to ${formatNumber(rate, 6)} Hz`],
  };
}
