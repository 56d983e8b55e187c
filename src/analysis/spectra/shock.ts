import { answered, type Answer } from '../../result/result.ts';
import { shockResponse, type ShockResponse } from '../../signal/shock.ts';
import { piecesOf } from '../../signal/stretch.ts';
import type { Band } from '../../values/band.ts';
import type { Watch } from '../../values/ports.ts';
import type { Run, Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { ShockEntry, ShockValue } from '../../values/shock.ts';
import { refuse } from '../messages/spectra.ts';
import { evenly } from '../recordings/uniformRate.ts';
import { powerOf } from '../../numbers/power.ts';
import { log2Of } from '../../numbers/logarithm.ts';

/** Natural frequencies in an octave, as shock response spectra are drawn. */
const perOctave = 12;

/**
 * The shock response spectrum of each run and channel: twelve natural frequencies an octave, the largest response
 * at any time (maximax), towards + and towards -, and after the end of the run (residual). The median of a channel stands for
 * rest. Refuses a resultant, runs too uneven for a uniform rate, and frequencies above a tenth of a run's rate.
 *
 * @param damping fraction of critical damping
 * @param over the range of natural frequencies in Hz; default from one oscillation a run, at least 1 Hz, to a tenth of the lowest rate
 */
export function shockResponses(
  given: RunsValue,
  damping: number,
  over: Band | undefined,
  watch: Watch,
): Answer<ShockValue> {
  const even = evenly(given, 'shock');
  if (!even.ok) return even;
  const { runs } = even.value;
  const range = over ?? usualRange(runs);
  const tooSlow = runs.find(({ rate }) => range.to > (rate / 10) * (1 + 1e-9));
  if (tooSlow !== undefined)
    return refuse(
      'shock.rate',
      { run: tooSlow.label, to: range.to, rate: tooSlow.rate },
      over === undefined ? 'runs' : 'over',
    );
  const frequencies = octavesOf(range);
  const entries: ShockEntry[] = [];
  for (const [index, run] of runs.entries()) {
    watch.progress(index / runs.length, 'shock response');
    for (const channel of run.channels) {
      if (channel.axes !== undefined)
        return refuse('shock.resultant', { run: run.label, axes: channel.axes.map(({ name }) => name) }, 'runs');
      entries.push({ run, channel, frequencies, ...largestOf(channel, run, frequencies, damping) });
    }
  }
  return answered({ kind: 'shock', set: given.set, damping, entries }, even.warnings);
}

function usualRange(runs: readonly Run[]): Band {
  const longest = Math.max(
    ...runs.map(({ stretches, rate }) => stretches.reduce((sum, { from, to }) => sum + to - from, 0) / rate),
  );
  return { from: Math.max(1, 1 / longest), to: Math.min(...runs.map(({ rate }) => rate)) / 10 };
}

/** From the lower end in twelfths of an octave to the upper one. */
function octavesOf({ from, to }: Band): Float64Array {
  const count = Math.floor(perOctave * log2Of(to / from) + 1e-9) + 1;
  return Float64Array.from({ length: count }, (_, k) => from * powerOf(2, k / perOctave));
}

/** The largest of all unbroken stretches, each from rest. */
function largestOf(
  { samples }: Signal,
  { stretches, rate }: Run,
  frequencies: Float64Array,
  damping: number,
): ShockResponse {
  const rest = medianOf(samples);
  const all = piecesOf(samples, stretches).map((piece) =>
    shockResponse(
      piece.map((value) => value - rest),
      rate,
      frequencies,
      damping,
    ),
  );
  const most = (of: (one: ShockResponse) => Float64Array): Float64Array =>
    Float64Array.from(frequencies, (_, k) => Math.max(...all.map((one) => of(one)[k])));
  return {
    maximax: most(({ maximax }) => maximax),
    positive: most(({ positive }) => positive),
    negative: most(({ negative }) => negative),
    residual: most(({ residual }) => residual),
  };
}

function medianOf(samples: Float64Array): number {
  const sorted = samples.slice().sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
