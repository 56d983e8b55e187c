/** An unbroken piece of a uniformly sampled signal: samples `from` up to but without `to`. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  /** Time of the sample at `from`, in s from the recording's first sample. */
  readonly start: number;
}

/** Samples in the longest of the `stretches`, of which a recording with many losses has more than a call takes arguments. */
export const longestOf = (stretches: readonly Stretch[]): number =>
  stretches.reduce((most, { from, to }) => Math.max(most, to - from), 0);

/**
 * Views, not copies, of a signal's unbroken pieces.
 *
 * @param samples of the whole signal
 * @param stretches where its pieces lie
 */
export function piecesOf(samples: Float64Array, stretches: readonly Stretch[]): Float64Array[] {
  return stretches.map(({ from, to }) => samples.subarray(from, to));
}

/**
 * A signal made anew, each unbroken piece by itself.
 *
 * @param samples of the whole signal
 * @param stretches where its pieces lie
 * @param make fills the room for a piece, of its length, from the piece
 * @returns as many samples, 0 where no stretch lies
 */
export function pieceByPiece(
  samples: Float64Array,
  stretches: readonly Stretch[],
  make: (piece: Float64Array, into: Float64Array) => void,
): Float64Array {
  const into = new Float64Array(samples.length);
  const room = piecesOf(into, stretches);
  piecesOf(samples, stretches).forEach((piece, s) => make(piece, room[s]));
  return into;
}

/**
 * The samples with `begin` <= t < `end`. Indices and start times stay those of the recording; a stretch of which
 * nothing is left is dropped.
 *
 * @param stretches of the recording, in the order of time
 * @param rate in Hz
 * @param begin in s from the recording's first sample
 * @param end likewise
 */
export function trimStretches(stretches: readonly Stretch[], rate: number, begin: number, end: number): Stretch[] {
  // A thousandth of a sample: a rate measured from rounded stamps must not cost a sample that lies on the edge.
  const firstAtOrAfter = (time: number): number => Math.ceil(time * rate - 1e-3);
  const kept: Stretch[] = [];
  for (const { from, to, start } of stretches) {
    const first = Math.min(Math.max(from + firstAtOrAfter(begin - start), from), to);
    const last = Math.max(Math.min(from + firstAtOrAfter(end - start), to), first);
    if (last > first) kept.push({ from: first, to: last, start: start + (first - from) / rate });
  }
  return kept;
}

/** What lies between two stretches, in s from the recording's first sample, and the first sample after it. */
export interface Gap {
  readonly from: number;
  readonly to: number;
  readonly row: number;
}

/**
 * The gaps between stretches: from the last sample before to the first after, where these are more than 1.25 steps
 * apart. A stretch that goes straight on, as after a reset of the clock, leaves none.
 *
 * @param stretches of the recording, in the order of time
 * @param rate in Hz
 * @param times in s from the recording's first sample, of the last sample of each stretch at least, by its index; where
 * samples were not taken evenly
 */
export function gapsBetween(
  stretches: readonly Stretch[],
  rate: number,
  times?: Readonly<Record<number, number>>,
): Gap[] {
  const gaps: Gap[] = [];
  for (let s = 1; s < stretches.length; s++) {
    const before = stretches[s - 1];
    const from = times?.[before.to - 1] ?? before.start + (before.to - before.from - 1) / rate;
    const to = stretches[s].start;
    if (to - from > 1.25 / rate) gaps.push({ from, to, row: stretches[s].from });
  }
  return gaps;
}
