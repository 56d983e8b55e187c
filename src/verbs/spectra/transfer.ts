import { piecesOf } from '../../signal/stretch.ts';
import { transfer as responseOf } from '../../signal/transfer.ts';
import { hopOf, segmentCount } from '../../signal/welch.ts';
import { windowShape } from '../../signal/windows.ts';
import { sameDimension } from '../../units/dimension.ts';
import { one, parseUnit } from '../../units/parse.ts';
import type { Unit } from '../../units/unit.ts';
import { findChannel } from '../../analysis/recordings/channels.ts';
import { operand, textOf, valueOf } from '../arguments.ts';
import { whyUneven } from '../../analysis/recordings/runs.ts';
import { segmentSamples, whyTooShort } from '../../analysis/spectra/segments.ts';
import { alsoOf, together, type RunWarning } from '../../analysis/together.ts';
import { usingOption, windowOf } from './using.ts';
import type { Channel, Run } from '../../values/run.ts';
import type { WindowValue } from '../../values/window.ts';
import type { TransferEntry } from '../../values/transfer.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse, type Failure } from '../../result/result.ts';
import type { Watch } from '../../values/ports.ts';

/** Below this coherence a response is not to be read (engineering choice). */
const leastCoherence = 0.5;
/** Fewer effective averages than this make any two signals seem coherent. */
const fewAverages = 8;

export const transfer: Verb = {
  form: {
    verb: 'transfer',
    summary: 'Gives the frequency response from one channel to another of the same run.',
    help: 'H1 = Gxy/Gxx and H2 = Gyy/Gyx by Welch’s averages, the coherence |Gxy|²/(Gxx Gyy), the phase (negative where the output comes later) and the random error √(1 − γ²)/(γ√(2n)) of the magnitude, which in radians is that of the phase, n being the effective averages (Bendat and Piersol, Random Data, 6.2 and 9.2). H1 reads low where the input is noisy, H2 high where the output is. Where the coherence is below 0.5 the response is not to be read. Both channels must have been recorded at the same moments: of two separate runs only the ratio of their spectra can be taken, which is no frequency response.',
    operands: [
      { name: 'runs', doc: 'Runs that hold both channels.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      { name: 'input', doc: 'The channel that drives.', accepts: [{ type: 'channel' }], keyword: 'from' },
      { name: 'output', doc: 'The channel that responds.', accepts: [{ type: 'channel' }], keyword: 'to' },
    ],
    options: [usingOption],
    gives: 'transfer',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s\ntransfer foam from x to z using window hann 1 s',
    ],
  },
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const uneven = whyUneven(runs);
    if (uneven !== undefined) return uneven;
    const window = windowOf(given);
    const [from, to] = ['input', 'output'].map((name) => textOf(operand(given, name)) ?? '');
    const entries: TransferEntry[] = [];
    for (const run of runs.runs) {
      watch.progress(entries.length / runs.runs.length, `transfer of ${run.label}`);
      const pair = pairOf(run, from, to);
      if ('failure' in pair) return pair;
      const short = whyTooShort([run], window, 'using');
      if (short !== undefined) return short;
      const single = whyOneSegment(run, window);
      if (single !== undefined) return refuse('window.long', single, 'using');
      entries.push(entryOf(run, pair, window, watch));
    }
    return answer(
      { kind: 'transfer', set: runs.set, window, leastCoherence, entries },
      together(entries.flatMap(doubts)),
    );
  },
};

interface Pair {
  readonly input: Channel;
  readonly output: Channel;
  /** Of output / input, and what the plain ratio of samples is multiplied by to be in it. */
  readonly unit: Unit;
  readonly scale: number;
}

function pairOf(run: Run, from: string, to: string): Pair | { ok: false; failure: Failure } {
  const input = findChannel(run.channels, from);
  const output = findChannel(run.channels, to);
  if (input === undefined || output === undefined) {
    const missing = input === undefined ? from : to;
    return refuse(
      'channel.unknown',
      `${run.label} has no channel ${missing}: it has ${run.channels.map(({ name }) => name).join(', ')}.`,
      input === undefined ? 'input' : 'output',
    );
  }
  if (input === output)
    return refuse('transfer.same', `${input.name} stands on both sides: its response to itself is 1.`, 'output');
  if (sameDimension(input.unit.dimension, output.unit.dimension))
    return { input, output, unit: one, scale: output.unit.factor / input.unit.factor };
  const ratio = parseUnit(`${output.unit.symbol || '1'}${input.unit.symbol === '' ? '' : `/(${input.unit.symbol})`}`);
  return ratio.ok
    ? { input, output, unit: ratio.unit, scale: 1 }
    : refuse(
        'transfer.unit',
        `The response of ${output.name} in ${output.unit.symbol || 'no unit'} to ${input.name} in ${input.unit.symbol || 'no unit'} has no unit that can be written.`,
        'output',
      );
}

/** With a single segment any two signals are coherent. */
function whyOneSegment(run: Run, window: WindowValue): string | undefined {
  const length = segmentSamples(run, window);
  const hop = hopOf(length, window.overlap);
  const segments = run.stretches.reduce((sum, { from, to }) => sum + segmentCount(to - from, length, hop), 0);
  if (segments > 1) return undefined;
  return `Only one segment of ${window.length} s fits into ${run.label}, of which any two channels seem coherent: take a shorter window.`;
}

function entryOf(run: Run, { input, output, unit, scale }: Pair, window: WindowValue, watch: Watch): TransferEntry {
  const inputs = piecesOf(input.samples, run.stretches);
  const outputs = piecesOf(output.samples, run.stretches);
  const found = responseOf(
    inputs.map((piece, s) => ({ input: piece, output: outputs[s] })),
    {
      shape: windowShape(window.shape, segmentSamples(run, window)),
      rate: run.rate,
      overlap: window.overlap,
      cancelled: watch.cancelled,
    },
  );
  return {
    run,
    from: input.name,
    to: output.name,
    unit,
    spacing: found.step,
    averages: found.averages,
    magnitude: found.h1.map((value) => value * scale),
    magnitudeH2: found.h2.map((value) => value * scale),
    phase: found.phase.map((value) => (value * 180) / Math.PI),
    coherence: found.coherence,
    randomError: found.error,
  };
}

function doubts({ run, from, to, averages, coherence }: TransferEntry): RunWarning[] {
  const found: RunWarning[] = [];
  if (averages < fewAverages) {
    found.push({
      code: 'transfer.few',
      of: run.label,
      tell: (others) => ({
        code: 'transfer.few',
        message: `Only ${averages.toFixed(1)} independent averages go into the response of ${run.label}, so that even unrelated channels seem coherent: use a shorter window or a longer stretch.${alsoOf(others)}`,
      }),
    });
  }
  const readable = coherence.subarray(1).filter((value) => value >= leastCoherence).length;
  if (readable === 0) {
    found.push({
      code: 'transfer.incoherent',
      of: run.label,
      tell: (others) => ({
        code: 'transfer.incoherent',
        message: `The coherence of ${from} and ${to} of ${run.label} is nowhere ${leastCoherence} or more: ${to} does not follow from ${from} alone.${alsoOf(others)}`,
      }),
    });
  }
  return found;
}
