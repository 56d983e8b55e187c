import { answered, type Answer, type Refused } from '../../result/result.ts';
import { integrate, integrationEdge } from '../../signal/integrate.ts';
import { moments } from '../../signal/levels.ts';
import { longestOf, pieceByPiece, piecesOf, type Stretch } from '../../signal/stretch.ts';
import { inFrequency } from '../../signal/weighting.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatNumber } from '../../units/format.ts';
import { unit } from '../../units/parse.ts';
import type { Dimension } from '../../units/unit.ts';
import type { Watch } from '../../values/ports.ts';
import { axesOf, signalsOf, type Channel, type Run, type Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { seconds } from '../amounts.ts';
import { refuse, tell } from '../messages/recordings.ts';
import { longStretches } from '../recordings/longStretches.ts';
import { shortestStretch, withSamples } from '../recordings/runs.ts';
import { evenly, ofPieces } from '../recordings/uniformRate.ts';
import { together, type RunWarning } from '../together.ts';

export type Goal = 'velocity' | 'displacement';

/** Periods of the low cut that a stretch should hold (engineering choice). */
const periodsWanted = 5;
/** Share of the mean square within an octave above the low cut, from which the cut decides the result. */
const decisiveShare = 0.5;

/** Units in which velocity and displacement are given. */
export const resultUnit = { velocity: unit('m/s'), displacement: unit('mm') } as const;

/**
 * Velocity in m/s or displacement in mm of every channel. Refuses runs too uneven to be brought to
 * a uniform rate, a low cut that is not below half a run's rate, channels that neither are an acceleration nor, for displacement, a velocity, and runs of which the ends
 * that an integration can't know leave nothing.
 * @param lowCut in Hz, above 0; below it the result fades to nothing
 */
export function integrated(runs: RunsValue, goal: Goal, lowCut: number, watch: Watch): Answer<RunsValue> {
  const even = evenly(runs, 'integrate');
  if (!even.ok) return even;
  const warnings: RunWarning[] = [];
  const done: Run[] = [];
  for (const all of even.value.runs) {
    watch.progress(done.length / runs.runs.length, `integrating ${all.label}`);
    const refusal = whyNoIntegral(all, goal, lowCut);
    if (refusal !== undefined) return refusal;
    const edge = Math.max(
      ...signalsOf(all).map(({ unit: { dimension } }) => integrationEdge(timesTo(goal, dimension)!, lowCut)),
    );
    const least = 2 * Math.ceil(edge * all.rate) + 1;
    const wanted = Math.max(least, Math.ceil((periodsWanted / lowCut) * all.rate));
    const long = longStretches(all, 'integrate', { least, wanted });
    if (long === undefined) return whyTooShort(all, edge, lowCut);
    const { run } = long;
    warnings.push(...long.warnings, ...shortness(run, lowCut));
    const inner = innerOf(run, edge);
    const cut = formatNumber(lowCut, 6);
    const step = `integrated to ${goal} above ${cut} Hz, without ${seconds(edge)} at each end`;
    const whole = withSamples(run, step, (signal) => {
      const samples = integralOf(run, signal, goal, lowCut);
      const integral = { samples, unit: resultUnit[goal], unitFrom: 'integration', includesStatic: false };
      return { ...integral, lowCut: integralCut(signal, lowCut) };
    });
    run.channels.forEach((channel, c) =>
      warnings.push(...doubts(run, inner, { channel, integral: whole.channels[c], goal, lowCut })),
    );
    const starts = inner.map(({ start }) => start);
    done.push({ ...whole, start: starts[0], ...ofPieces(whole, starts, ({ samples }) => piecesOf(samples, inner)) });
  }
  return answered({ ...runs, runs: done }, [...even.warnings, ...together(warnings)]);
}

/**
 * Below which frequency in Hz an integral means nothing: its own low cut, or one that what it was integrated from went through.
 * @param lowCut of the integration, in Hz
 */
export const integralCut = (
  { lowCut: before = 0, highpass = 0 }: Pick<Channel, 'lowCut' | 'highpass'>,
  lowCut: number,
): number => Math.max(lowCut, before, highpass);

/** The stretches of a run without what an integration can't know of their ends, `edge` in s. */
function innerOf({ stretches, rate }: Run, edge: number): Stretch[] {
  const lost = Math.ceil(edge * rate);
  return stretches.map(({ from, to, start }) => ({ from: from + lost, to: to - lost, start: start + lost / rate }));
}

function whyTooShort(run: Run, edge: number, lowCut: number): Refused {
  const length = longestOf(run.stretches) / run.rate;
  return refuse('integrate.edges', { run: run.label, length, edge, lowCut }, 'runs');
}

/**
 * Why a run, or its spectrum, can't be integrated: a cut past half the rate, or a channel's unit; otherwise undefined.
 * @param lowCut in Hz
 */
export function whyNoIntegral(run: Run, goal: Goal, lowCut: number): Refused | undefined {
  const half = run.rate / 2;
  if (!(lowCut < half)) return refuse('integrate.low-cut', { run: run.label, lowCut, half }, 'above');
  const strange = run.channels.find(({ unit: { dimension } }) => timesTo(goal, dimension) === undefined);
  if (strange === undefined) return undefined;
  const { name, unit: own } = strange;
  return refuse('integrate.unit', { run: run.label, channel: name, unit: own.symbol, goal }, 'runs');
}

/** How often to integrate, or undefined where there is no way. */
export function timesTo(goal: Goal, dimension: Dimension): 1 | 2 | undefined {
  if (sameDimension(dimension, dimensionOf('acceleration'))) return goal === 'velocity' ? 1 : 2;
  return sameDimension(dimension, dimensionOf('speed')) && goal === 'displacement' ? 1 : undefined;
}

function integralOf(run: Run, signal: Signal, goal: Goal, lowCut: number): Float64Array {
  const times = timesTo(goal, signal.unit.dimension)!;
  const samples = pieceByPiece(signal.samples, run.stretches, (piece, into) =>
    integrate(piece, run.rate, times, lowCut, into),
  );
  const scale = signal.unit.factor / resultUnit[goal].factor;
  for (let i = 0; i < samples.length; i++) samples[i] *= scale;
  return samples;
}

function shortness(run: Run, lowCut: number): RunWarning[] {
  const { from, to } = shortestStretch(run);
  const length = (to - from) / run.rate;
  if (length * lowCut >= periodsWanted) return [];
  const code = 'integrate.short';
  const facts = { run: run.label, length, periods: periodsWanted, lowCut };
  return [{ code, of: run.label, tell: (others) => tell(code, { ...facts, others }) }];
}

interface Integral {
  readonly channel: Channel;
  /** Of the whole run, ends and all. */
  readonly integral: Channel;
  readonly goal: Goal;
  readonly lowCut: number;
}

/** Where most of the result lies just above the low cut, another cut would give another result. */
function doubts(run: Run, inner: readonly Stretch[], { channel, integral, goal, lowCut }: Integral): RunWarning[] {
  const all = powerIn(
    inner,
    axesOf(integral).map(({ samples }) => samples),
  );
  if (!(all > 0) || 2 * lowCut >= run.rate / 2) return [];
  const above = powerIn(
    inner,
    axesOf(integral).map(({ samples }) => onlyAbove(run, samples, 2 * lowCut)),
  );
  const share = 1 - above / all;
  if (share <= decisiveShare) return [];
  const code = 'integrate.low-cut';
  const facts = { run: run.label, channel: channel.name, goal, lowCut, share };
  return [{ code, of: `${run.label}, ${channel.name}`, tell: (others) => tell(code, { ...facts, others }) }];
}

/** A signal without what is below a frequency in Hz, each stretch taken as periodic: a share of power ends at an edge, not in a slope. */
const onlyAbove = ({ rate, stretches }: Run, samples: Float64Array, from: number): Float64Array =>
  pieceByPiece(samples, stretches, (piece, into) => {
    const first = (from * piece.length) / rate;
    inFrequency(piece, into, (k) => ({ re: k >= first ? 1 : 0, im: 0 }));
  });

/** Sum of squares about the means of these stretches, over the axes. */
const powerIn = (inner: readonly Stretch[], axes: readonly Float64Array[]): number =>
  axes.flatMap((samples) => piecesOf(samples, inner)).reduce((sum, piece) => sum + moments(piece).m2 * piece.length, 0);
