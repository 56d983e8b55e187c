import { settings } from '../../readers/settings.ts';
import type { Stretch } from '../../readers/recording.ts';
import { answered, type Answer } from '../../result/result.ts';
import { evenlySampled } from '../../signal/spline.ts';
import { changed } from '../../values/resultant.ts';
import { signalsOf, type Run, type Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/recordings.ts';
import { together, type RunWarning } from '../together.ts';

/**
 * The runs as a verb takes them that needs a uniform rate: those of uneven stamps brought to even steps of their mean
 * rate, and told. Refuses a run whose steps vary by more than 25 % of their mean, which is resampled by hand or not at
 * all, and one of which no two samples follow each other in time.
 *
 * @param verb as the message names what needs the rate
 */
export function evenly<T extends Pick<RunsValue, 'set' | 'runs'>>(runs: T, verb: string): Answer<T> {
  if (runs.runs.every(({ stamps }) => stamps === undefined)) return answered(runs);
  const warnings: RunWarning[] = [];
  const even: Run[] = [];
  for (const run of runs.runs) {
    if (run.stamps !== undefined && run.stamps.jitter > settings.jitter.refuse)
      return refuse('rate.uneven', { verb, run: run.label, set: runs.set, rate: run.rate }, 'runs');
    const done = atUniformRate(run);
    if (done.stretches.length === 0) return refuse('resample.empty', { run: run.label }, 'runs');
    if (run.stamps !== undefined) warnings.push(rateWarning(run, run.stamps.jitter, verb));
    even.push(done);
  }
  return answered({ ...runs, runs: even }, together(warnings));
}

function rateWarning(run: Run, jitter: number, verb: string): RunWarning {
  const code = 'rate.evened';
  const facts = { verb, run: run.label, jitter, rate: run.rate, step: widestStep(run) };
  return { code, of: run.label, rank: 0, tell: (others) => tell(code, { ...facts, others }) };
}

/**
 * A run whose samples carry their own times, at even steps of its mean rate: through a natural cubic spline, each
 * unbroken stretch by itself. Of readings that share a time the first is kept.
 */
export function atUniformRate(run: Run): Run {
  const { stamps, untrimmed: _whole, ...rest } = run;
  if (stamps === undefined) return run;
  const { times } = stamps;
  const kept = run.stretches.map(({ from, to }) => rising(times, from, to)).filter((rows) => rows.length > 1);
  const starts = kept.map((rows) => times[rows[0]]);
  return {
    ...rest,
    ...ofPieces(run, starts, ({ samples }) =>
      kept.map((rows) => evenlySampled(pick(times, rows), pick(samples, rows), run.rate)),
    ),
    history: [
      ...run.history,
      `uneven readings brought to even steps of ${run.rate.toPrecision(6)} Hz by a cubic spline`,
    ],
  };
}

/** s; the widest step of a run: uneven samples hold content up to half a rate only where they stand that close. */
export function widestStep({ stretches, stamps, rate }: Run): number {
  if (stamps === undefined) return 1 / rate;
  let widest = 0;
  for (const { from, to } of stretches)
    for (let i = from + 1; i < to; i++) widest = Math.max(widest, stamps.times[i] - stamps.times[i - 1]);
  return widest;
}

/** Rows from..to whose time follows that of the row kept before. */
function rising(times: Float64Array, from: number, to: number): Int32Array {
  const rows = new Int32Array(to - from);
  let count = 0;
  for (let i = from; i < to; i++) if (count === 0 || times[i] > times[rows[count - 1]]) rows[count++] = i;
  return rows.subarray(0, count);
}

const pick = (values: Float64Array, rows: Int32Array): Float64Array => Float64Array.from(rows, (row) => values[row]);

/**
 * The signals of a run, its resultants' axes included, made of other pieces.
 * @param starts times of the new unbroken stretches in s
 * @param become a signal's samples in each of them
 */
export function ofPieces(
  run: Run,
  starts: readonly number[],
  become: (signal: Signal) => readonly Float64Array[],
): Pick<Run, 'stretches' | 'channels'> {
  const parts = new Map(signalsOf(run).map((signal) => [signal, become(signal)]));
  const [first = []] = parts.values();
  const stretches: Stretch[] = [];
  starts.forEach((start, s) => {
    const from = stretches[s - 1]?.to ?? 0;
    stretches.push({ from, to: from + first[s].length, start });
  });
  const joinedUp = (signal: Signal): Signal => ({ ...signal, samples: joined(parts.get(signal) ?? []) });
  return { stretches, channels: run.channels.map((channel) => changed(channel, joinedUp)) };
}

/** The `pieces` one after another in one array. */
export function joined(pieces: readonly Float64Array[]): Float64Array {
  if (pieces.length === 1) return pieces[0];
  const all = new Float64Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}
