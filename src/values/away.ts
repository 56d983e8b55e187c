import { handsOnExcluded, runsOf } from './kinds.ts';
import { signalsOf, type Run, type Signal, type UnevenStamps } from './run.ts';
import type { Value } from './value.ts';

/**
 * A signal without its samples, which are read again where they are needed. It has none rather than no readings: whoever
 * takes them all the same is told of a fault, and not of silence.
 */
function awayOf({ samples, ...signal }: Signal): Signal {
  const away: Omit<Signal, 'samples'> = { ...signal, away: samples.length };
  return away as Signal;
}

/** What was found of an object before: values share their runs, and their copies are to do so as well. */
const copies = new WeakMap<object, object>();

/** A value, or a part of one, without the samples of its signals; itself where it holds none. Plain data. */
export function withoutSamples<T>(value: T): T {
  return copyOf(value) as T;
}

function copyOf(part: unknown): unknown {
  if (typeof part !== 'object' || part === null || ArrayBuffer.isView(part)) return part;
  const known = copies.get(part);
  if (known !== undefined) return known;
  // A recording may have a million stretches: what holds no samples is looked through again rather than remembered.
  const made = copyMade(part);
  if (made !== part) copies.set(part, made);
  return made;
}

function copyMade(part: object): object {
  if (isHeldSignal(part)) return awayOf(part);
  if (Array.isArray(part)) return copyOfList(part);
  if (isRun(part)) return withoutTimes(copyOfFields(part, fieldsWithSamples) as Run);
  return copyOfFields(part, Object.keys(part));
}

/** Samples a stretch from which the times at their ends are few. */
const fewEnds = 16;

/** A run without the times of its samples, where it has some: of those that are away only the ends of stretches are asked for. */
function withoutTimes(run: Run): Run {
  const { stamps, stretches } = run;
  if (stamps === undefined || stamps.ends !== undefined) return run;
  const { times, ...rest } = stamps;
  if (times.length < fewEnds * stretches.length) return run;
  const ends = Object.fromEntries(stretches.map(({ to }) => [to - 1, times[to - 1]]));
  const away: Omit<UnevenStamps, 'times'> = { ...rest, ends };
  return { ...run, stamps: away as UnevenStamps };
}

/** Where a run holds samples; all else of it need not be gone through, as often as it is met. */
const fieldsWithSamples = ['channels', 'untrimmed'] as const satisfies (keyof Run)[];
const fieldsWithArrays = [...fieldsWithSamples, 'stamps', 'long'] as const satisfies (keyof Run)[];

const isRun = (part: object): part is Run => 'channels' in part && 'stretches' in part && 'layout' in part;

/** The parts of an object among which all arrays of numbers are that it holds. Plain data. */
export const partsWithArrays = (object: object): readonly unknown[] =>
  isRun(object) ? fieldsWithArrays.map((field) => object[field]) : Object.values(object);

/** Signals of recordings that are too large for memory have no samples from the start. */
const isHeldSignal = (part: object): part is Signal =>
  'includesStatic' in part && 'samples' in part && part.samples instanceof Float64Array && part.samples.length > 0;

function copyOfList(list: readonly unknown[]): readonly unknown[] {
  let made: unknown[] | undefined;
  for (let i = 0; i < list.length; i++) {
    const copy = copyOf(list[i]);
    if (copy !== list[i]) (made ??= [...list])[i] = copy;
  }
  return made ?? list;
}

function copyOfFields(object: object, fields: readonly string[]): object {
  const from = object as Record<string, unknown>;
  let made: Record<string, unknown> | undefined;
  for (const key of fields) {
    const copy = copyOf(from[key]);
    if (copy !== from[key]) (made ??= { ...from })[key] = copy;
  }
  return made ?? object;
}

/** Whether it is not known any more when each sample of a run was taken, which was not sampled evenly. */
export const lacksTimes = ({ stamps }: Run): boolean => stamps?.ends !== undefined;

/** Whether samples of a run are away. */
export const isRunAway = (run: Run): boolean => signalsOf(run).some(({ away }) => away !== undefined);

/** The runs that a value holds: those behind it or what it shows, that a sheet leaves out, and that are remarked on. */
export function allRunsOf(value: Value): readonly Run[] {
  if (value.kind === 'chart') return value.subjects.flatMap((subject) => allRunsOf(subject.value));
  if (value.kind === 'findings')
    return [...new Set([...(value.looked?.runs ?? []), ...value.rows].map(({ run }) => run))];
  const excluded = handsOnExcluded(value) ? (value.excluded ?? []) : [];
  return [...runsOf(value), ...excluded.flatMap(({ run }) => run ?? [])];
}

/** Whether samples of a run behind a value are away. */
export const isAway = (value: Value): boolean => allRunsOf(value).some(isRunAway);

/** The runs whose samples are wanted: all, or those from some files, by their paths. */
export type Wanted = 'all' | ReadonlySet<string>;

/** Whether a run's samples are wanted and away. */
export const isMissed = (run: Run, wanted: Wanted | undefined): boolean =>
  wanted !== undefined && (wanted === 'all' || wanted.has(run.file.path)) && isRunAway(run);

/** Whether samples behind a value are wanted and away. */
export const misses = (value: Value, wanted: Wanted | undefined): boolean =>
  wanted !== undefined && allRunsOf(value).some((run) => isMissed(run, wanted));

/** The memory that the samples of a run lie in, those included of what it was trimmed from. */
export const sampleBuffers = ({ channels, untrimmed }: Pick<Run, 'channels' | 'untrimmed'>): ArrayBufferLike[] => [
  ...signalsOf({ channels }).flatMap(({ away, samples }) =>
    away === undefined && samples.length > 0 ? [samples.buffer] : [],
  ),
  ...(untrimmed === undefined ? [] : sampleBuffers(untrimmed)),
];
