/** Where a recording is interrupted, or its clock set anew. */
export interface Break {
  /** First row after the break. */
  readonly row: number;
  readonly reset: boolean;
  /** Samples that it leaves out, where the stamps are too coarse for the step across it to tell. */
  readonly missing?: number;
}

/** Unbroken rows, from one up to but without another. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * The breaks that steps between stamps tell: longer than a limit where samples are lost, far back where the clock was set.
 * @param usual step between samples, and longest that is no gap, in s
 * @param shared whether several samples share a stamp
 * @param burst usual step from burst to burst in s, or 0
 */
export function findBreaks(t: Float64Array, usual: number, limit: number, shared: boolean, burst: number): Break[] {
  const breaks: Break[] = [];
  const reset = -Math.max(1, 20 * usual, 4 * burst);
  for (let i = 1; i < t.length; i++) {
    const step = t[i] - t[i - 1];
    if (step < reset) breaks.push({ row: i, reset: true });
    else if (step > limit && (shared || isLoss(t, i, usual, limit))) breaks.push({ row: i, reset: false });
  }
  return breaks;
}

/** A stamp that was only late is followed by shorter steps; after a loss the stamps stay behind for good. */
function isLoss(t: Float64Array, row: number, usual: number, limit: number): boolean {
  const reach = 4;
  const side = (from: number, to: number, stop: (i: number) => boolean): number => {
    const offsets: number[] = [];
    const step = from < to ? 1 : -1;
    for (let i = from; i !== to && i >= 0 && i < t.length; i += step) {
      offsets.push(t[i] - i * usual);
      if (stop(i)) break;
    }
    return offsets.sort((a, b) => a - b)[offsets.length >> 1];
  };
  const before = side(row - 1, row - 1 - reach, (i) => i > 0 && t[i] - t[i - 1] > limit);
  const after = side(row, row + reach, (i) => i + 1 < t.length && t[i + 1] - t[i] > limit);
  return after - before > 0.5 * usual;
}

/** The unbroken rows between breaks. */
export function spansOf(rows: number, breaks: readonly Break[]): Span[] {
  const starts = [0, ...breaks.map(({ row }) => row)];
  return starts.map((from, i) => ({ from, to: starts[i + 1] ?? rows }));
}
