import { findChannel } from '../../readers/findChannel.ts';
import { answered, success, type Answer, type Result } from '../../result/result.ts';
import { evenlySampled, splineAt } from '../../signal/spline.ts';
import { longestOf, piecesOf } from '../../signal/stretch.ts';
import { oddPulse, pulseTimes, smoothedPulses } from '../../signal/tachometer.ts';
import { unit } from '../../units/parse.ts';
import { formatSpread } from '../../units/format.ts';
import { counted } from '../../result/words.ts';
import type { Watch } from '../../values/ports.ts';
import { changed } from '../../values/resultant.ts';
import type { Channel, Run, Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import type { WindowValue } from '../../values/window.ts';
import { refuse } from '../messages/spectra.ts';
import { evenly, joined } from '../recordings/uniformRate.ts';
import { orderDensityUnit } from './orders.ts';
import { spectrumOf } from './spectrum.ts';

/** What counts the turns of a run. */
export interface Tachometer {
  readonly channel: string;
  /** Pulses a turn, a whole number from 1. */
  readonly pulses: number;
}

/** Pulses without which a stretch says no speed. */
const fewestPulses = 5;

/** A run over its turns: evenly sampled in angle, its `rate` so many samples a turn and its times in turns. */
interface Turned {
  readonly run: Run;
  readonly over: Run;
  /** Turns a second, on average, at the slowest and at the fastest. */
  readonly mean: number;
  readonly fastest: number;
}

/**
 * The spectra of runs over orders, by a tachometer that was recorded along: each channel is brought to even steps of the angle
 * between the first and the last pulse of a stretch (natural cubic splines; computed order tracking, Fyfe and Munck 1997,
 * Mechanical Systems and Signal Processing 11(2)), and Welch's method is applied to that, so that speed which wanders smears no
 * order. A segment has as many whole turns as the window takes at the mean speed of all runs. Orders beyond half the rate at the
 * fastest speed are left out. Refuses a channel that is not there, pulses that are missing or doubled, and runs with fewer turns
 * than a segment.
 *
 * @param form density, in unit^2 an order, or height of lines
 */
export function spectrumOverTurns(
  asked: RunsValue,
  tachometer: Tachometer,
  { window, form }: { readonly window: WindowValue; readonly form: SpectrumValue['form'] },
  watch: Watch,
): Answer<SpectrumValue> {
  const even = evenly(asked, 'orders');
  if (!even.ok) return even;
  const all: Turned[] = [];
  for (const run of even.value.runs) {
    const one = turnedRun(run, tachometer);
    if (!one.ok) return one;
    all.push(one.value);
  }
  const mean = all.reduce((sum, one) => sum + one.mean, 0) / all.length;
  const turns = Math.max(1, Math.round(window.length * mean));
  for (const { run, over } of all) {
    const most = longestOf(over.stretches) / over.rate;
    if (most < turns) return refuse('orders.short', { run: run.label, turns, most, length: window.length }, 'using');
  }
  const runs = all.map(({ over }) => over);
  const found = spectrumOf({ set: asked.set, runs }, { window: { ...window, length: turns }, form }, watch);
  if (!found.ok) return found;
  const entries = found.value.entries.map((entry) => overOrders(entry, all));
  const bins = Math.min(...entries.map(({ level }) => level.length));
  const means = found.value.means.map((one) => ({
    ...one,
    unit: entries.find(({ channel }) => channel.name === one.channel)?.unit ?? one.unit,
    level: one.level.subarray(0, bins),
    low: one.low.subarray(0, bins),
    high: one.high.subarray(0, bins),
  }));
  const speeds = formatSpread(all.map((one) => 60 * one.mean));
  const by = `${tachometer.channel}, ${counted(tachometer.pulses, 'pulse')} a turn, ${speeds} rpm, segments of ${counted(turns, 'turn')}`;
  const value = { ...found.value, window, entries, means, axis: { name: 'order', unit: unit(''), by } } as const;
  return answered(value, [...even.warnings, ...found.warnings]);
}

/** An entry of a run over its turns as one of the run itself, over orders. */
function overOrders(entry: SpectrumEntry, all: readonly Turned[]): SpectrumEntry {
  const { run, over, fastest } = all.find((one) => one.over === entry.run)!;
  const channel = run.channels.find(({ name }) => name === entry.channel.name) ?? entry.channel;
  const bins = Math.min(entry.level.length, Math.floor(run.rate / 2 / fastest / entry.spacing) + 1);
  const isDensity = entry.unit.symbol !== over.channels[0].unit.symbol;
  return {
    ...entry,
    ...{ run, channel },
    unit: isDensity ? orderDensityUnit(channel.unit, { unit: unit('') }) : entry.unit,
    level: entry.level.subarray(0, bins),
    low: entry.low.subarray(0, bins),
    high: entry.high.subarray(0, bins),
    density: entry.density.subarray(0, bins),
  };
}

/** The run over its turns, without the tachometer's own channel. */
function turnedRun(run: Run, { channel: name, pulses }: Tachometer): Result<Turned> {
  const tacho = findChannel(run.channels, name);
  const known = run.channels.map((one) => one.name);
  if (tacho === undefined || tacho.axes !== undefined)
    return refuse('orders.channel', { run: run.label, channel: name, known }, 'tacho');
  const channels = run.channels.filter((one) => one !== tacho);
  if (channels.length === 0) return refuse('orders.alone', { run: run.label, channel: name }, 'tacho');
  const stretches: Stretch[] = [];
  for (const [index, piece] of piecesOf(tacho.samples, run.stretches).entries()) {
    const one = stretchOf(run, piece, run.stretches[index], pulses);
    if (!one.ok) return one;
    if (one.value !== undefined) stretches.push(one.value);
  }
  if (stretches.length === 0) return refuse('orders.still', { run: run.label, channel: name }, 'tacho');
  const speeds = stretches.flatMap((one) => one.speeds);
  const rate = Math.ceil(run.rate / Math.min(...speeds));
  const over = overTurns({ ...run, channels }, stretches, rate);
  const mean =
    stretches.reduce((sum, one) => sum + one.turns, 0) / stretches.reduce((sum, one) => sum + one.seconds, 0);
  return success({ run, over, mean, fastest: Math.max(...speeds) });
}

/** The angle at the samples of a stretch between its first and its last pulse. */
interface Stretch {
  /** Index of the first sample with an angle, in the run's samples; and the turns since the first pulse at it and those after. */
  readonly from: number;
  readonly angles: Float64Array;
  readonly turns: number;
  readonly seconds: number;
  /** Turns a second from pulse to pulse. */
  readonly speeds: readonly number[];
}

/** Undefined of a stretch with too few pulses to tell a speed; refused of one whose pulses do not follow one another. */
function stretchOf(
  run: Run,
  piece: Float64Array,
  { from, start }: Run['stretches'][number],
  pulses: number,
): Result<Stretch | undefined> {
  const { rate, label } = run;
  const seen = pulseTimes(piece, rate);
  if (seen.length < fewestPulses) return success(undefined);
  const odd = oddPulse(seen);
  if (odd !== undefined) return refuse('orders.pulses', { run: label, at: start + seen[odd] }, 'tacho');
  const times = smoothedPulses(seen);
  const first = Math.ceil(times[0] * rate);
  const last = Math.floor(times[times.length - 1] * rate);
  const at = Float64Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => (first + k) / rate);
  const counts = times.map((_, k) => k / pulses);
  const distances = Array.from(times.subarray(1), (time, k) => time - times[k]);
  return success({
    from: from + first,
    angles: splineAt(times, counts, at),
    turns: counts[counts.length - 1],
    seconds: times[times.length - 1] - times[0],
    speeds: distances.map((distance) => 1 / (pulses * distance)),
  });
}

/** The channels at even steps of the angle, one stretch after another. @param rate samples a turn */
function overTurns(run: Run, stretches: readonly Stretch[], rate: number): Run {
  const resampled = ({ samples }: Signal): Float64Array[] =>
    stretches.map(({ from, angles }) => evenlySampled(angles, samples.subarray(from, from + angles.length), rate));
  let lengths: number[] = [];
  const channels: Channel[] = run.channels.map((channel) =>
    changed(channel, (signal) => {
      const pieces = resampled(signal);
      lengths = pieces.map(({ length }) => length);
      return { ...signal, samples: joined(pieces) };
    }),
  );
  let at = 0;
  const spans = lengths.map((length) => ({ from: at, to: (at += length), start: (at - length) / rate }));
  return { ...run, rate, channels, stretches: spans };
}
