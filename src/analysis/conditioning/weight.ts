import { answered, type Answer, type Refused } from '../../result/result.ts';
import { pieceByPiece } from '../../signal/stretch.ts';
import { fullFrom, weighted as weightedSamples, weightingNames, type WeightingName } from '../../signal/weighting.ts';
import { capitalised } from '../../result/words.ts';
import type { Watch } from '../../values/ports.ts';
import { signalsOf, type Channel, type Run, type Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/recordings.ts';
import { isAcceleration } from '../recordings/dimensions.ts';
import { longStretches, type LongStretches } from '../recordings/longStretches.ts';
import { shortestStretch, withSamples } from '../recordings/runs.ts';
import { evenly } from '../recordings/uniformRate.ts';
import { together, type RunWarning } from '../together.ts';

export { weightingNames, type WeightingName };

/** Lower and upper frequency in Hz of what a weighting counts: of its band limits, and its highest third-octave band. */
const reach: Readonly<Record<WeightingName, readonly [low: number, high: number]>> = {
  wk: [0.4, 80],
  wd: [0.4, 80],
  wf: [0.08, 0.5],
  wc: [0.4, 80],
  we: [0.4, 80],
  wj: [0.4, 80],
  wb: [0.4, 80],
  wm: [0.8, 80],
  wh: [6.3, 1250],
};

/** A rate should be so many times the highest frequency counted, and a stretch hold so many periods of the lowest. */
const rateFactor = 2.5;
const periodsWanted = 4;

/** Share of the samples that must lie in stretches which hold a period of what a weighting counts in full (engineering choice). */
const shareWanted = 0.5;

/**
 * The runs with each channel weighted, a resultant axis by axis. Refuses runs too uneven to be brought to a uniform
 * rate, another number of weightings than one or one a channel or axis, channels that are no acceleration, and those
 * that are weighted already.
 * @param names one weighting for all, or one for each channel or axis in their order
 */
export function weighted(runs: RunsValue, names: readonly WeightingName[], watch: Watch): Answer<RunsValue> {
  const even = evenly(runs, 'weight');
  if (!even.ok) return even;
  const warnings: RunWarning[] = [];
  const done: Run[] = [];
  for (const whole of even.value.runs) {
    watch.progress(done.length / runs.runs.length, `weighting ${whole.label}`);
    const refusal = whyNoWeighting(whole, names);
    if (refusal !== undefined) return refusal;
    const { run, warnings: more } = weightable(whole, names, 'weight');
    warnings.push(...more);
    const signals = signalsOf(run);
    const own = signals.map((_, s) => (names.length === 1 ? names[0] : names[s]));
    const step = `frequency-weighted ${names.map(capitalised).join(', ')}`;
    done.push(withSamples(run, step, (signal) => weightedSignal(run, signal, own[signals.indexOf(signal)])));
  }
  return answered({ ...runs, runs: done }, [...even.warnings, ...together(warnings)]);
}

/**
 * A run as it can be weighted: without stretches that are mostly a weighting's settling, where enough is left.
 * @param names the weightings of its channels
 * @param step as the message of what was left out calls it
 */
export function weightable(whole: Run, names: readonly WeightingName[], step: string): LongStretches {
  const wanted = Math.ceil(Math.max(...names.map((name) => periodsWanted / reach[name][0])) * whole.rate);
  // A stretch of one sample can be weighted, so that some are always left.
  const { run, warnings } = longStretches(whole, step, { least: 1, wanted })!;
  return { run, warnings: [...warnings, ...doubts(run, [...new Set(names)])] };
}

function whyNoWeighting(of: Run, names: readonly WeightingName[]): Refused | undefined {
  const { label: run, channels } = of;
  const signals = signalsOf(of);
  if (names.length !== 1 && names.length !== signals.length) {
    const isOfAxes = channels.some(({ axes }) => axes !== undefined);
    const facts = { run, channels: signals.map(({ name }) => name), isOfAxes, weightings: names.length };
    return refuse('weight.count', facts, 'weightings');
  }
  for (const signal of signals) {
    const refusal = whyUnweightable(run, signal, 'runs');
    if (refusal !== undefined) return refusal;
  }
  return whyTooBroken(of, names, 'runs');
}

/**
 * Why a run can't be weighted for its losses, or undefined: of stretches that hold not one period of what a weighting
 * counts in full, a level would be far too low, and nothing would tell by how much.
 * @param names the weightings of its channels
 * @param at the operand that holds it
 */
export function whyTooBroken(
  { label: run, rate, stretches }: Run,
  names: readonly WeightingName[],
  at: 'runs' | 'a' | 'b' | 'reference',
): Refused | undefined {
  const samplesIn = (all: Run['stretches']): number => all.reduce((sum, { from, to }) => sum + to - from, 0);
  for (const name of names) {
    const frequency = fullFrom(name);
    const short = stretches.filter(({ from, to }) => (to - from) * frequency < rate);
    const share = samplesIn(short) / samplesIn(stretches);
    if (share <= 1 - shareWanted) continue;
    const facts = { run, weighting: capitalised(name), frequency, share, stretches: stretches.length };
    return refuse('weight.broken', facts, at);
  }
  return undefined;
}

/**
 * Why a channel can't be weighted, or undefined: only an acceleration can be, and once.
 * @param run its label
 * @param at the operand that holds it, `runs` or a side of a comparison that is to be weighted as its metric
 */
export function whyUnweightable(
  run: string,
  { name: channel, unit, weighting }: Channel,
  at: 'runs' | 'a' | 'b' | 'reference',
): Refused | undefined {
  if (weighting !== undefined) return refuse('weight.twice', { run, channel, weighting, asMetric: at !== 'runs' }, at);
  return isAcceleration(unit) ? undefined : refuse('weight.unit', { run, channel, unit: unit.symbol }, at);
}

/** What weighting changes in a signal: its samples, each unbroken stretch by itself, and its static part, which is gone. */
export function weightedSignal(
  run: Run,
  signal: Signal,
  name: WeightingName,
): Required<Pick<Signal, 'samples' | 'includesStatic' | 'weighting'>> {
  const samples = pieceByPiece(signal.samples, run.stretches, (piece, into) =>
    weightedSamples(name, piece, run.rate, into),
  );
  return { samples, includesStatic: false, weighting: capitalised(name) };
}

function doubts(run: Run, names: readonly WeightingName[]): RunWarning[] {
  const { label: of, rate } = run;
  const { from, to } = shortestStretch(run);
  const length = (to - from) / rate;
  return names.flatMap((name) => {
    const [lowest, highest] = reach[name];
    const about = { run: of, weighting: capitalised(name) };
    const found: RunWarning[] = [];
    if (rate < rateFactor * highest) {
      const facts = { ...about, highest, needed: rateFactor * highest, rate };
      found.push({
        code: 'weight.rate',
        of,
        sameFor: name,
        tell: (others) => tell('weight.rate', { ...facts, others }),
      });
    }
    if (length * lowest < periodsWanted) {
      const facts = { ...about, lowest, length, needed: periodsWanted / lowest };
      found.push({
        code: 'weight.short',
        of,
        sameFor: name,
        tell: (others) => tell('weight.short', { ...facts, others }),
      });
    }
    return found;
  });
}
