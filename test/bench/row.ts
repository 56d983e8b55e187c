/** One line of the bench's table. */
export interface Row {
  readonly what: string;
  /** Median of ours, and of the reference in the same run, in ms of processor time. */
  readonly ours: number;
  readonly reference?: { readonly name: string; readonly median: number };
  /** What it is held to: the ratio to the reference, or milliseconds where there is none. */
  readonly goal?: number;
  readonly note?: string;
}

/**
 * Milliseconds of processor time of each of `repeats` calls, after one that is not counted unless `warmed` is false.
 * Not time on the wall: on a machine that others use as well that says more about them. Compiler and collector
 * threads are counted against ours.
 */
export function timesOf(repeats: number, work: () => unknown, warmed = true): number[] {
  if (warmed) work();
  return Array.from({ length: repeats }, () => {
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
}

export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
