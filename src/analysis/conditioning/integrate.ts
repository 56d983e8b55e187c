import { answered, type Answer, type Refused } from '../../result/result.ts';
import { integrate } from '../../signal/integrate.ts';
import { moments } from '../../signal/levels.ts';
import { piecesOf } from '../../signal/stretch.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatNumber } from '../../units/format.ts';
import { unit } from '../../units/parse.ts';
import type { Dimension } from '../../units/unit.ts';
import type { Watch } from '../../values/ports.ts';
import { axesOf, type Channel, type Run, type Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/recordings.ts';
import { shortestStretch, withSamples } from '../recordings/runs.ts';
import { evenly } from '../recordings/uniformRate.ts';
import { together, type RunWarning } from '../together.ts';

export type Goal = 'velocity' | 'displacement';

/** Periods of the low cut that a stretch should hold (engineering choice). */
const periodsWanted = 5;
/** Share of the mean square within an octave above the low cut, from which the cut decides the result. */
const decisiveShare = 0.5;

const resultUnit = { velocity: unit('m/s'), displacement: unit('mm') } as const;

/**
 * Velocity in m/s or displacement in mm of every channel. Refuses runs too uneven to be brought to a uniform rate, a low cut that is not below half a
 * run's rate, and channels that neither are an acceleration nor, for displacement, a velocity.
 * @param lowCut in Hz, above 0; nothing below it is kept
 */
export function integrated(runs: RunsValue, goal: Goal, lowCut: number, watch: Watch): Answer<RunsValue> {
  const even = evenly(runs, 'integrate');
  if (!even.ok) return even;
  const warnings: RunWarning[] = [];
  const done: Run[] = [];
  for (const run of even.value.runs) {
    watch.progress(done.length / runs.runs.length, `integrating ${run.label}`);
    const refusal = whyNoIntegral(run, goal, lowCut);
    if (refusal !== undefined) return refusal;
    warnings.push(...shortness(run, lowCut));
    const step = `integrated to ${goal} above ${formatNumber(lowCut, 6)} Hz`;
    const after = withSamples(run, step, (signal) => {
      const samples = integralOf(run, signal, goal, lowCut);
      return { samples, unit: resultUnit[goal], unitFrom: 'integration', includesStatic: false };
    });
    run.channels.forEach((channel, c) => warnings.push(...doubts(run, channel, after.channels[c], { goal, lowCut })));
    done.push(after);
  }
  return answered({ ...runs, runs: done }, [...even.warnings, ...together(warnings)]);
}

function whyNoIntegral(run: Run, goal: Goal, lowCut: number): Refused | undefined {
  const half = run.rate / 2;
  if (!(lowCut < half)) return refuse('integrate.low-cut', { run: run.label, lowCut, half }, 'above');
  const strange = run.channels.find(({ unit: { dimension } }) => timesTo(goal, dimension) === undefined);
  if (strange === undefined) return undefined;
  const { name, unit: own } = strange;
  return refuse('integrate.unit', { run: run.label, channel: name, unit: own.symbol, goal }, 'runs');
}

/** How often to integrate, or undefined where there is no way. */
function timesTo(goal: Goal, dimension: Dimension): 1 | 2 | undefined {
  if (sameDimension(dimension, dimensionOf('acceleration'))) return goal === 'velocity' ? 1 : 2;
  return sameDimension(dimension, dimensionOf('speed')) && goal === 'displacement' ? 1 : undefined;
}

function integralOf(run: Run, signal: Signal, goal: Goal, lowCut: number): Float64Array {
  const into = new Float64Array(signal.samples.length);
  const times = timesTo(goal, signal.unit.dimension)!;
  const pieces = piecesOf(signal.samples, run.stretches);
  piecesOf(into, run.stretches).forEach((piece, s) => integrate(pieces[s], run.rate, times, lowCut, piece));
  const scale = signal.unit.factor / resultUnit[goal].factor;
  for (let i = 0; i < into.length; i++) into[i] *= scale;
  return into;
}

function shortness(run: Run, lowCut: number): RunWarning[] {
  const { from, to } = shortestStretch(run);
  const length = (to - from) / run.rate;
  if (length * lowCut >= periodsWanted) return [];
  const code = 'integrate.short';
  const facts = { run: run.label, length, periods: periodsWanted, lowCut };
  return [{ code, of: run.label, tell: (others) => tell(code, { ...facts, others }) }];
}

/** Where most of the result lies just above the low cut, another cut would give another result. */
function doubts(
  run: Run,
  channel: Channel,
  integral: Channel,
  { goal, lowCut }: { readonly goal: Goal; readonly lowCut: number },
): RunWarning[] {
  const all = meanSquareOf(axesOf(integral).map(({ samples }) => samples));
  if (!(all > 0) || 2 * lowCut >= run.rate / 2) return [];
  const above = meanSquareOf(axesOf(channel).map((signal) => integralOf(run, signal, goal, 2 * lowCut)));
  const share = 1 - above / all;
  if (share <= decisiveShare) return [];
  const code = 'integrate.low-cut';
  const facts = { run: run.label, channel: channel.name, goal, lowCut, share };
  return [{ code, of: `${run.label}, ${channel.name}`, tell: (others) => tell(code, { ...facts, others }) }];
}

/** About the means, summed over the axes. */
const meanSquareOf = (axes: readonly Float64Array[]): number =>
  axes.reduce((sum, samples) => sum + moments(samples).m2, 0);
