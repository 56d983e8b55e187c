import { partsOf } from '../../readers/long/partsOf.ts';
import type { Stretch } from '../../readers/recording.ts';
import type { Refused } from '../../result/result.ts';
import type { Files, Watch } from '../../values/ports.ts';
import type { Run, Signal } from '../../values/run.ts';
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
    const own = runOf(read.value, file, label, { channels, reading });
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

/** What of a block lies in one unbroken stretch. */
export interface BlockPart {
  readonly stretch: Stretch;
  /** Index of the stretch. */
  readonly index: number;
  readonly signals: readonly Float64Array[];
  /** Whether the stretch begins, and ends, with it. */
  readonly begins: boolean;
  readonly ends: boolean;
}

/** The parts of a block that lie in each unbroken stretch. @param stretches of the run, in order */
export function alongStretches(stretches: readonly Stretch[], { from, to, signals }: Block): BlockPart[] {
  return stretches.flatMap((stretch, index) => {
    const [first, last] = [Math.max(from, stretch.from), Math.min(to, stretch.to)];
    if (last <= first) return [];
    const own = signals.map((samples) => samples.subarray(first - from, last - from));
    return [{ stretch, index, signals: own, begins: first === stretch.from, ends: last === stretch.to }];
  });
}
