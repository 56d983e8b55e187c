import { partsOf } from '../../readers/long/partsOf.ts';
import type { Stretch } from '../../readers/recording.ts';
import { success, type Refused, type Result } from '../../result/result.ts';
import type { Files, Watch } from '../../values/ports.ts';
import type { Channel, Run, Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse } from '../messages/recordings.ts';
import { runOf } from './recordedRun.ts';

/** The outside, as far as a recording that is too large for memory needs it. */
export interface Reach {
  readonly files: Files;
  readonly watch: Watch;
}

/** A run that is too large for memory. */
export type LongerRun = Run & { readonly long: NonNullable<Run['long']> };

/** Whether a run is too large for memory, so that its samples are read part by part. */
export const isLong = (run: Run): run is LongerRun => run.long !== undefined;

/** Samples of every signal of a run, from one of its rows on. */
export interface Block {
  readonly from: number;
  readonly to: number;
  /** In the order of the run's channels, each in its unit. */
  readonly signals: readonly Float64Array[];
}

/** The signals of a run that is too large for memory: it has no resultants. */
export const signalsIn = ({ channels }: Run): readonly Signal[] =>
  channels.flatMap((channel) => (channel.axes === undefined ? [channel] : []));

/**
 * Reads a run's samples from its file, block by block in order; those that no stretch holds are left out of none.
 * Refuses a file that is not as it was.
 * @param what it is for, as the reader is told
 * @param take is given each block, whose arrays hold until it returns
 */
export async function eachBlock(
  run: LongerRun,
  { files, watch }: Reach,
  what: string,
  take: (block: Block) => void,
): Promise<Refused | undefined> {
  const { long, file, label } = run;
  const { recording, reading, channels, from, to } = long;
  const source = await files.open(file.path, file);
  const parts = await partsOf(source, recording, reading);
  if (!parts.ok) return parts;
  const wanted = recording.parts.filter((part) => part.row < to && part.row + part.rows > from);
  for (const [index, part] of wanted.entries()) {
    watch.progress(index / wanted.length, what);
    const read = await parts.value.read(part, { cancelled: watch.cancelled, progress: () => undefined });
    if (!read.ok) return read;
    // The step of a part is nobody's business, and takes a sort.
    const bare = read.value.channels.map((channel) => ({ ...channel, step: 0 }));
    const own = runOf({ ...read.value, channels: bare }, file, label, { channels, reading });
    if (!own.ok) return own;
    const [first, last] = [Math.max(0, from - part.row), Math.min(part.rows, to - part.row)];
    const signals: Float64Array[] = [];
    for (const signal of signalsIn(run)) {
      const found = signalsIn(own.value).find(({ name }) => name === signal.name);
      if (found === undefined) return refuse('channel.unknown', { run: label, channel: signal.name, known: [] });
      const samples = found.samples.subarray(first, last);
      const factor = found.unit.symbol === signal.unit.symbol ? 1 : found.unit.factor / signal.unit.factor;
      signals.push(factor === 1 ? samples : samples.map((value) => value * factor));
    }
    take({ from: part.row + first - from, to: part.row + last - from, signals });
  }
  return undefined;
}

/** Receives the samples of one signal stretch by stretch, each in as many pieces as blocks hold of it. */
export interface ByStretches {
  begin?(stretch: Stretch): void;
  add(samples: Float64Array): void;
  end?(): void;
}

/**
 * Gives what lies of a block in each unbroken stretch to those who take the signals.
 * @param stretches of the run, in order
 * @param takers one a signal, in the block's order
 */
export function alongStretches(
  stretches: readonly Stretch[],
  { from, to, signals }: Block,
  takers: readonly ByStretches[],
): void {
  for (const stretch of stretches) {
    const [first, last] = [Math.max(from, stretch.from), Math.min(to, stretch.to)];
    if (last <= first) continue;
    takers.forEach((taker, k) => {
      if (first === stretch.from) taker.begin?.(stretch);
      taker.add(signals[k].subarray(first - from, last - from));
      if (last === stretch.to) taker.end?.();
    });
  }
}

/**
 * What is found of each signal of those runs that are too large for memory; the first refusal where there is one.
 * @param runs of which the others are passed over
 * @param find gives it in the order of a run's signals
 */
export async function ofLongSignals<T>(
  { runs }: Pick<RunsValue, 'runs'>,
  find: (run: LongerRun) => Promise<Result<readonly T[]>>,
): Promise<Result<ReadonlyMap<Channel, T>>> {
  const found = new Map<Channel, T>();
  for (const run of runs.filter(isLong)) {
    const values = await find(run);
    if (!values.ok) return values;
    signalsIn(run).forEach((channel, k) => found.set(channel, values.value[k]));
  }
  return success(found);
}
