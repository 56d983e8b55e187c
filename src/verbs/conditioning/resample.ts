import { rationalRatio, resampled, type Ratio } from '../../signal/resample.ts';
import { piecesOf, type Stretch } from '../../signal/stretch.ts';
import { formatNumber } from '../../units/format.ts';
import { hertz } from '../../analysis/amounts.ts';
import { atUniformRate, joined } from '../../analysis/recordings/uniformRate.ts';
import { operand, quantityIn, si, valueOf } from '../arguments.ts';
import { sampleCount, type Run } from '../../values/run.ts';
import { together, type RunWarning } from '../../analysis/together.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse, type Failure } from '../../result/result.ts';
import type { Watch } from '../../values/ports.ts';

/** Rates may change by so much either way; more is a slip of the unit. */
const largestFactor = 1000;
/** Samples of a channel, beyond which a machine’s memory is at stake. */
const mostSamples = 200_000_000;

export const resample: Verb = {
  form: {
    verb: 'resample',
    summary: 'Brings each run to another, uniform rate.',
    help: 'A polyphase filter changes the rate by a ratio of whole numbers: a sinc under a Kaiser window (beta 5), cut off at half the lower of the two rates, so that nothing folds down. It is flat to 0.4 of the lower rate and reads half the amplitude at half of it. The rate reached is within a millionth of the one asked for, and is stated. Each unbroken stretch goes by itself; its first sample keeps its time. Readings that were taken unevenly are first brought to even steps of their mean rate by a natural cubic spline. A higher rate adds no content.',
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      { name: 'rate', doc: 'The new rate.', accepts: [{ type: 'quantity', dimension: 'frequency', above: 0 }] },
    ],
    options: [],
    gives: 'runs',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | channel z\nresample foam 400 Hz'],
  },
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const asked = quantityIn(operand(given, 'rate'));
    const rate = asked === undefined ? NaN : si(asked);
    const warnings: RunWarning[] = [];
    const done: Run[] = [];
    for (const run of runs.runs) {
      watch.progress(done.length / runs.runs.length, `resampling ${run.label}`);
      const refusal = whyNoResampling(run, rate);
      if (refusal !== undefined) return refusal;
      if (rate > run.rate * (1 + 1e-6)) {
        warnings.push({
          code: 'resample.up',
          of: run.label,
          message: `${run.label} was sampled at ${hertz(run.rate)}: the higher rate adds nothing above ${hertz(run.rate / 2)}.`,
        });
      }
      const uneven = run.times !== undefined;
      const even = atUniformRate(run);
      if (even.stretches.length === 0)
        return refuse('resample.empty', `No two readings of ${run.label} follow each other in time.`, 'runs');
      if (uneven) warnings.push(thinReadings(run));
      done.push(atRate(even, rationalRatio(rate / even.rate), watch));
    }
    return answer({ ...runs, runs: done }, together(warnings));
  },
};

function whyNoResampling(run: Run, rate: number): { ok: false; failure: Failure } | undefined {
  const factor = rate / run.rate;
  if (factor > largestFactor || factor < 1 / largestFactor) {
    return refuse(
      'resample.factor',
      `${run.label} is at ${hertz(run.rate)}, and ${hertz(rate)} is more than ${largestFactor} times ${factor > 1 ? 'faster' : 'slower'}: check the unit of the rate.`,
      'rate',
    );
  }
  if (sampleCount(run) * factor > mostSamples)
    return refuse(
      'resample.large',
      `${run.label} would grow to more than ${formatNumber(mostSamples)} samples.`,
      'rate',
    );
  return undefined;
}

/** Uneven readings carry content up to half the rate only where they stand that close. */
function thinReadings(run: Run): RunWarning {
  let widest = 0;
  for (const { from, to } of run.stretches)
    for (let i = from + 1; i < to; i++) widest = Math.max(widest, run.times![i] - run.times![i - 1]);
  return {
    code: 'resample.uneven',
    of: run.label,
    message: `${run.label} was sampled unevenly, with steps up to ${formatNumber(1000 * widest, 3)} ms: what is faster than ${hertz(1 / (2 * widest))} is partly interpolated.`,
  };
}

function atRate(run: Run, ratio: Ratio, { cancelled }: Watch): Run {
  if (ratio.up === ratio.down) return run;
  const { untrimmed: _whole, ...rest } = run;
  const rate = (run.rate * ratio.up) / ratio.down;
  const parts = run.channels.map(({ samples }) =>
    piecesOf(samples, run.stretches).map((piece) => resampled(piece, ratio, cancelled)),
  );
  const stretches: Stretch[] = [];
  run.stretches.forEach(({ start }, s) => {
    const from = stretches[s - 1]?.to ?? 0;
    stretches.push({ from, to: from + parts[0][s].length, start });
  });
  return {
    ...rest,
    rate,
    stretches,
    channels: run.channels.map((channel, c) => ({ ...channel, samples: joined(parts[c]) })),
    history: [...run.history, `resampled from ${formatNumber(run.rate, 6)} to ${formatNumber(rate, 6)} Hz`],
  };
}
