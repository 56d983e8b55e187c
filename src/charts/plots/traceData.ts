import { drawnSamples } from '../../values/resultant.ts';
import { sampledFor, signalsOf, stretchEnd, type Channel, type Run } from '../../values/run.ts';
import type { Domain } from '../axes.ts';
import { lookedAt } from '../closer.ts';
import { envelope, pointLimit } from '../decimate.ts';
import { drawn } from '../../values/number.ts';

/** Samples over time as a picture needs them: extents and envelopes of unbroken stretches. */

/** The recording that a run was trimmed from, or the run itself. */
export const untrimmedOf = (run: Run): Run => run.untrimmed ?? run;

/** s on the recording's time axis, one sample past the last. */
export function endOf(run: Run): number {
  return run.stretches.reduce(
    (end, stretch) => Math.max(end, stretchEnd(run, stretch)),
    run.start + (run.stretches.length > 0 ? 0 : sampledFor(run)),
  );
}

/** From the earliest sample of the runs' recordings to the latest, or what is asked for of that. */
export function timeDomain(runs: readonly Run[], asked?: Domain): Domain {
  const over = lookedAt('time', asked);
  const from = Math.min(...runs.map((run) => untrimmedOf(run).start));
  const to = Math.max(...runs.map((run) => endOf(untrimmedOf(run))));
  if (over === undefined) return { from, to };
  const cut = { from: Math.max(from, over.from), to: Math.min(to, over.to) };
  return cut.from < cut.to ? cut : { from, to };
}

/** The samples that are drawn of a channel: of the stretch in use, and of the whole recording. */
export interface Trace {
  readonly used: Float64Array;
  readonly untrimmed: Float64Array;
}

/** Of a resultant the length of its vector, about the means of the stretch in use all along. */
export function traceOf(run: Run, channel: Channel): Trace {
  const used = drawnSamples(channel);
  if (run.untrimmed === undefined) return { used, untrimmed: used };
  const untrimmed = [...run.untrimmed.channels, ...signalsOf(run.untrimmed)].find(({ name }) => name === channel.name);
  return { used, untrimmed: untrimmed === undefined ? new Float64Array(0) : drawnSamples(untrimmed, channel) };
}

/** One domain for all channels of a name and unit, so that runs can be compared by eye. */
export function levelDomain(
  shown: readonly { readonly channel: Channel; readonly trace: Trace }[],
  { name, unit }: Channel,
): Domain {
  const sameAxis = shown.filter(({ channel }) => channel.name === name && channel.unit.symbol === unit.symbol);
  const spans = sameAxis.flatMap(({ trace }) => [trace.used, trace.untrimmed].map(extent));
  const from = Math.min(...spans.map((span) => span.from));
  const to = Math.max(...spans.map((span) => span.to));
  return from < to ? { from, to } : { from: from - 1, to: to + 1 };
}

const extents = new WeakMap<Float64Array, Domain>();

/** Lowest and highest sample. Found once for an array: each panel of an axis asks for all of its axis, and again after each trim. */
export function extent(samples: Float64Array): Domain {
  const known = extents.get(samples);
  if (known !== undefined) return known;
  let from = Infinity;
  let to = -Infinity;
  for (let i = 0; i < samples.length; i++) {
    if (samples[i] < from) from = samples[i];
    if (samples[i] > to) to = samples[i];
  }
  extents.set(samples, { from, to });
  return { from, to };
}

/** One row a stretch: times in s, lowest and highest sample of each column. */
export interface Piece {
  readonly piece: number;
  readonly t: number[];
  readonly v: (number | null)[];
  readonly v2: (number | null)[];
}

/**
 * One piece per unbroken stretch, so that no line bridges a gap; columns are shared out by length. Of more stretches than
 * there are columns those are drawn as one that a gap parts of less than a column.
 * @param samples all of the run's
 */
export function pieces(run: Run, samples: Float64Array, x: Domain, columns = pointLimit): readonly Piece[] {
  const of = drawnBefore.get(samples)?.filter(({ run: other }) => other === run) ?? [];
  const before = of.find((one) => one.x.from === x.from && one.x.to === x.to && one.columns === columns);
  if (before !== undefined) return before.pieces;
  const made = freshPieces(run, samples, x, columns);
  drawnBefore.set(samples, [{ run, x, columns, pieces: made }, ...of.slice(0, 1)]);
  return made;
}

/** The last two pictures of a recording's samples, its trace and its narrow strip: a trim that moves draws both again. */
const drawnBefore = new WeakMap<
  Float64Array,
  readonly { readonly run: Run; readonly x: Domain; readonly columns: number; readonly pieces: readonly Piece[] }[]
>();

function freshPieces(run: Run, samples: Float64Array, x: Domain, columns: number): Piece[] {
  if (samples.length === 0) return [];
  const stretches = run.stretches.length > 0 ? run.stretches : [{ from: 0, to: samples.length, start: run.start }];
  const visible = stretches.flatMap((stretch, piece) => {
    const { from, to } = seenRows(run, stretch, x);
    return to > from ? [{ piece, from, to, within: [stretch] }] : [];
  });
  const shown = visible.length <= columns ? visible : joinedWhere(visible, run, (x.to - x.from) / columns);
  const total = shown.reduce((sum, { from, to }) => sum + to - from, 0);
  return shown.map(({ piece, from, to, within }) => {
    const { at, low, high } = envelope(samples, from, to, Math.max(2, Math.round((columns * (to - from)) / total)));
    const times =
      run.stamps === undefined ? timesIn(within, at, run.rate) : at.map((index) => run.stamps!.times[index]);
    return { piece, t: times.map((time) => drawn(time) ?? 0), v: low.map(drawn), v2: high.map(drawn) };
  });
}

/** Rows that are drawn as one piece, and the stretches that they lie in. */
interface Shown {
  readonly piece: number;
  readonly from: number;
  to: number;
  readonly within: Run['stretches'][number][];
}

function joinedWhere(visible: readonly Shown[], run: Run, gap: number): Shown[] {
  const shown: Shown[] = [];
  for (const one of visible) {
    const before = shown.at(-1);
    const [stretch] = one.within;
    const isNear = before?.to === stretch.from && stretch.start - stretchEnd(run, before.within.at(-1)!) < gap;
    if (before === undefined || !isNear) shown.push({ ...one, within: [stretch] });
    else {
      before.to = one.to;
      before.within.push(stretch);
    }
  }
  return shown;
}

/** s; when samples were taken. @param stretches that hold them @param at their indices, rising @param rate in Hz */
function timesIn(stretches: readonly Run['stretches'][number][], at: readonly number[], rate: number): number[] {
  let k = 0;
  return at.map((index) => {
    while (k + 1 < stretches.length && index >= stretches[k].to) k++;
    return stretches[k].start + (index - stretches[k].from) / rate;
  });
}

/** The samples of a stretch that lie in what is seen, with one on either side so that the line goes to its edges. */
function seenRows(
  { rate, stamps }: Run,
  { from, to, start }: Run['stretches'][number],
  x: Domain,
): { from: number; to: number } {
  if (stamps === undefined)
    return {
      from: Math.min(to, Math.max(from, from + Math.floor((x.from - start) * rate))),
      to: Math.max(from, Math.min(to, from + Math.ceil((x.to - start) * rate) + 1)),
    };
  const { times } = stamps;
  if (times[from] >= x.to || times[to - 1] <= x.from) return { from, to: from };
  let [first, last] = [from, to];
  while (first + 1 < to && times[first + 1] <= x.from) first++;
  while (last - 1 > first && times[last - 2] >= x.to) last--;
  return { from: first, to: last };
}
