import { logOf } from '../numbers/logarithm.ts';

/**
 * Fewer points to draw, none of the peaks lost: each column of the picture keeps its lowest and its highest point.
 */

/** Points of one curve that are worth drawing; a plot is rarely wider in px. */
export const pointLimit = 800;

/** Indices of the bins to draw of a spectrum whose bin k lies at k x spacing; bin 0 is left out. Ascending. */
export function binsToDraw(
  level: Float64Array,
  spacing: number,
  from: number,
  to: number,
  scale: 'linear' | 'log',
  limit = pointLimit,
): number[] {
  const first = Math.max(1, Math.ceil(from / spacing - 1e-9));
  const last = Math.min(level.length - 1, Math.floor(to / spacing + 1e-9));
  const columns = limit / 2;
  const start = scale === 'log' ? logOf(first) : first;
  const span = (scale === 'log' ? logOf(last) : last) - start;
  const columnOf = (bin: number): number =>
    Math.min(columns - 1, Math.floor((((scale === 'log' ? logOf(bin) : bin) - start) / span) * columns));
  if (last - first + 1 <= limit)
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
  const kept: number[] = [];
  for (let bin = first; bin <= last;) {
    const column = columnOf(bin);
    let low = bin;
    let high = bin;
    for (; bin <= last && columnOf(bin) === column; bin++) {
      if (level[bin] < level[low]) low = bin;
      if (level[bin] > level[high]) high = bin;
    }
    kept.push(Math.min(low, high));
    if (low !== high) kept.push(Math.max(low, high));
  }
  return kept;
}

export interface Envelope {
  /** Index of the first sample of each column. */
  readonly at: number[];
  readonly low: number[];
  readonly high: number[];
}

/** Lowest and highest sample of each of at most so many equal columns of samples from..to (one past the last). */
export function envelope(samples: Float64Array, from: number, to: number, columns = pointLimit): Envelope {
  const count = Math.min(columns, to - from);
  const at: number[] = [];
  const lows: number[] = [];
  const highs: number[] = [];
  for (let column = 0; column < count; column++) {
    const start = from + Math.floor(((to - from) * column) / count);
    const end = from + Math.floor(((to - from) * (column + 1)) / count);
    let low = Infinity;
    let high = -Infinity;
    for (let index = start; index < end; index++) {
      if (samples[index] < low) low = samples[index];
      if (samples[index] > high) high = samples[index];
    }
    at.push(start);
    lows.push(low);
    highs.push(high);
  }
  return { at, low: lows, high: highs };
}
