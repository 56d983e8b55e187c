import { answered, success, type Answer, type Refused, type Result } from '../../result/result.ts';
import { aligned, delayBetween } from '../../signal/delay.ts';
import { piecesOf } from '../../signal/stretch.ts';
import type { Pair as SamplePair } from '../../signal/transfer.ts';
import { hopOf, segmentCount } from '../../signal/welch.ts';
import { windowShape } from '../../signal/windows.ts';
import { sameDimension } from '../../units/dimension.ts';
import { one, unit } from '../../units/parse.ts';
import type { Unit } from '../../units/unit.ts';
import type { Watch } from '../../values/ports.ts';
import { signalsOf, type Run, type Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { TransferEntry, TransferValue } from '../../values/transfer.ts';
import type { WindowValue } from '../../values/window.ts';
import { refuse as refuseRecording } from '../messages/recordings.ts';
import { refuse, tell } from '../messages/spectra.ts';
import { findChannel } from '../../readers/findChannel.ts';
import { evenly } from '../recordings/uniformRate.ts';
import { together, type RunWarning } from '../together.ts';
import { leastCoherence, responseOf } from './response.ts';
import { leftOutOf, segmentSamples, whyTooShort } from './segments.ts';

/** Fewer effective averages than this make any two signals seem coherent. */
const fewAverages = 8;

/** A delay above this share of a segment takes the output out of the segment that its input stands in (engineering choice). */
const mostDelay = 1 / 20;

/** The channels of a response by name or header: what drives, and what responds. */
export interface Way {
  readonly from: string;
  readonly to: string;
}

/** How a response is taken. */
export interface TransferRequest {
  readonly window: WindowValue;
  /** Whether the delay between the two is taken out first, to the nearest sample. */
  readonly align?: boolean;
}

/**
 * The frequency response of every run from one channel to another, H1 and H2, by Welch's averages (Bendat and Piersol,
 * Random Data, 6.2 and 9.2). Refuses runs too uneven to be brought to a uniform rate, resultants, runs that lack a
 * channel, a channel to itself, and windows of which fewer than two segments fit in a run.
 */
export function transferOf(
  asked: RunsValue,
  way: Way,
  { window, align = false }: TransferRequest,
  watch: Watch,
): Answer<TransferValue> {
  const refused = whyVector(asked);
  if (refused !== undefined) return refused;
  const even = evenly(asked, 'transfer');
  if (!even.ok) return even;
  const runs = even.value;
  const entries: TransferEntry[] = [];
  for (const run of runs.runs) {
    watch.progress(entries.length / runs.runs.length, `transfer of ${run.label}`);
    const pair = pairOf(run, way);
    if (!pair.ok) return pair;
    const refusal = whyTooShort([run], window, 'using') ?? whyOneSegment(run, window);
    if (refusal !== undefined) return refusal;
    const { delay, shift, pairs } = delayed(run, pair.value, align);
    const overlong = whyShifted(run, window, shift);
    if (overlong !== undefined) return overlong;
    const options = {
      shape: windowShape(window.shape, segmentSamples(run, window)),
      rate: run.rate,
      overlap: window.overlap,
      cancelled: watch.cancelled,
    };
    const { input, output, unit, scale } = pair.value;
    const response = responseOf(run, { from: input.name, to: output.name, unit, scale }, pairs, options);
    entries.push({ ...response, delay, aligned: shift / run.rate });
  }
  const value: TransferValue = { kind: 'transfer', set: runs.set, window, leastCoherence, entries };
  const doubtful = entries.flatMap((entry) => doubts(entry, window, align));
  return answered(value, [...even.warnings, ...together([...leftOutOf(runs.runs, window), ...doubtful])]);
}

function whyVector({ runs }: RunsValue): Refused | undefined {
  for (const { label, channels } of runs)
    for (const { axes } of channels)
      if (axes !== undefined)
        return refuse('transfer.resultant', { run: label, axes: axes.map(({ name }) => name) }, 'runs');
  return undefined;
}

interface Pair {
  readonly input: Signal;
  readonly output: Signal;
  /** Of output / input, and what the plain ratio of samples is multiplied by to be in it. */
  readonly unit: Unit;
  readonly scale: number;
}

function pairOf(run: Run, { from, to }: Way): Result<Pair> {
  const signals = signalsOf(run);
  const input = findChannel(signals, from);
  const output = findChannel(signals, to);
  if (input === undefined || output === undefined) {
    const channel = input === undefined ? from : to;
    const known = signals.map(({ name }) => name);
    const at = input === undefined ? 'input' : 'output';
    return refuseRecording('channel.unknown', { run: run.label, channel, known }, at);
  }
  if (input === output) return refuse('transfer.same', { channel: input.name }, 'output');
  if (sameDimension(input.unit.dimension, output.unit.dimension))
    return success({ input, output, unit: one, scale: output.unit.factor / input.unit.factor });
  const [per, of] = [input, output].map((channel) => channel.unit.symbol);
  return success({ input, output, unit: unit(`${of || '1'}${per === '' ? '' : `/(${per})`}`), scale: 1 });
}

/** With a single segment any two signals are coherent. */
function whyOneSegment(run: Run, window: WindowValue): Refused | undefined {
  const length = segmentSamples(run, window);
  const hop = hopOf(length, window.overlap);
  const segments = run.stretches.reduce((sum, { from, to }) => sum + segmentCount(to - from, length, hop), 0);
  if (segments > 1) return undefined;
  return refuse('window.long', { why: 'single', run: run.label, length: window.length }, 'using');
}

interface Delayed {
  /** s */
  readonly delay: number | undefined;
  /** Samples that the output was moved earlier. */
  readonly shift: number;
  readonly pairs: readonly SamplePair[];
}

function delayed(run: Run, { input, output }: Pair, align: boolean): Delayed {
  const inputs = piecesOf(input.samples, run.stretches);
  const outputs = piecesOf(output.samples, run.stretches);
  const pairs = inputs.map((piece, s) => ({ input: piece, output: outputs[s] }));
  const found = delayBetween(pairs);
  const shift = align && found !== undefined ? Math.round(found.samples) : 0;
  return { delay: found && found.samples / run.rate, shift, pairs: aligned(pairs, shift) };
}

/** Why what alignment leaves of a run holds too few segments. */
function whyShifted(run: Run, window: WindowValue, shift: number): Refused | undefined {
  const size = Math.abs(shift);
  if (size === 0) return undefined;
  const stretches = run.stretches
    .filter(({ from, to }) => to - from > size)
    .map((one) => ({ ...one, to: one.to - size }));
  const left = { ...run, stretches };
  return whyTooShort([left], window, 'using') ?? whyOneSegment(left, window);
}

function doubts(entry: TransferEntry, window: WindowValue, align: boolean): RunWarning[] {
  const {
    run: { label: run },
    from,
    to,
    averages,
    coherence,
    delay,
    aligned: moved,
  } = entry;
  const found: RunWarning[] = [];
  const left = delay === undefined ? 0 : delay - moved;
  if (Math.abs(left) > mostDelay * window.length) {
    const code = 'transfer.delay';
    found.push({
      code,
      of: run,
      tell: (others) => tell(code, { run, from, to, delay: left, segment: window.length, others }),
    });
  }
  if (align && delay === undefined) {
    const code = 'transfer.unaligned';
    found.push({ code, of: run, tell: (others) => tell(code, { run, from, to, others }) });
  }
  if (averages < fewAverages) {
    const code = 'transfer.few';
    found.push({ code, of: run, tell: (others) => tell(code, { run, averages, others }) });
  }
  if (coherence.subarray(1).every((value) => !(value >= leastCoherence))) {
    const code = 'transfer.incoherent';
    found.push({ code, of: run, tell: (others) => tell(code, { run, from, to, least: leastCoherence, others }) });
  }
  return found;
}
