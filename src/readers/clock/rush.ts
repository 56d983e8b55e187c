import type { StampClock } from './clock.ts';

/**
 * Rows right after a gap whose stamps come in a rush: a logger that was busy takes or stamps what it missed all at
 * once, so that nobody can tell when those samples were taken. Gives a mask of such rows, or undefined where there is none.
 */
export function rushAfterGaps(
  t: Float64Array,
  { stretches, rate, quantum, delivery }: Pick<StampClock, 'stretches' | 'rate' | 'quantum' | 'delivery'>,
): Uint8Array | undefined {
  if (delivery === 'bursts' || delivery === 'coarse' || stretches.length < 2) return undefined;
  const short = 0.5 / rate;
  if (quantum > short) return undefined;
  let mask: Uint8Array | undefined;
  for (const { from, to } of stretches.slice(1)) {
    let row = from;
    while (row + 1 < to && t[row + 1] - t[row] < short) row++;
    if (row - from < 3) continue;
    mask ??= new Uint8Array(t.length);
    mask.fill(1, from, row);
  }
  return mask;
}
