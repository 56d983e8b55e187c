import { placesWithin, valuesBetween } from './interpolate.ts';
import type { Pair } from './transfer.ts';
import type { ClockedSignal, ClockLine } from './clocks.ts';

/** A stretch that both signals hold, on A's steps. */
export interface CommonStretch extends Pair {
  /** Time of its first sample on A's clock, in s. */
  readonly start: number;
}

/**
 * What both signals hold, with B read at the times of A's samples.
 *
 * @param line what B's clock shows at a time of A's
 * @returns unbroken stretches as pairs, A the input; none where they have no time in common
 */
export function alongClock(a: ClockedSignal, b: ClockedSignal, { late, fast }: ClockLine): CommonStretch[] {
  const step = ((1 + fast) * b.rate) / a.rate;
  return a.pieces.flatMap(({ samples, start }) =>
    b.pieces.flatMap((piece) => {
      const first = (start * (1 + fast) - late - piece.start) * b.rate;
      const { from, to } = placesWithin(piece.samples.length, first, step, samples.length);
      if (to <= from) return [];
      const output = valuesBetween(piece.samples, first + from * step, step, to - from);
      return [{ input: samples.subarray(from, to), output, start: start + from / a.rate }];
    }),
  );
}
