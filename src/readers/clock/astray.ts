import { settings } from '../settings.ts';
import { stepCounts, stepShape } from './steps.ts';

/** Stamps with none that went astray, and of how many rows, from which on. */
export interface Straightened {
  readonly seconds: Float64Array;
  readonly rows: number;
  readonly first: number;
}

/**
 * Puts rows evenly between their neighbours whose stamps are far off, forwards or back, and then go on as if nothing had
 * been: a clock that could not be read for a while, and no reset. Undefined where there is none.
 * @param t stamps in s
 */
export function straightened(t: Float64Array): Straightened | undefined {
  // Whatever goes astray comes back, one way or the other.
  if (stepCounts(t).backward === 0) return undefined;
  const { median: usual } = stepShape(t);
  if (!(usual > 0)) return undefined;
  const far = Math.max(settings.astray.seconds, settings.astray.steps * usual);
  let found: { seconds: Float64Array; rows: number; first: number } | undefined;
  for (let row = 1; row < t.length; row++) {
    if (!(Math.abs(t[row] - t[row - 1]) > far)) continue;
    const end = backOnTrack(t, row, usual, far);
    if (end === undefined) continue;
    found ??= { seconds: t.slice(), rows: 0, first: row };
    const [from, rows] = [t[row - 1], end - row];
    const step = (t[end] - from) / (rows + 1);
    for (let i = row; i < end; i++) found.seconds[i] = from + (i - row + 1) * step;
    found.rows += rows;
    row = end;
  }
  return found;
}

/** The row behind one that jumps at which the clock jumps again, if that is where even steps would have come to. */
function backOnTrack(t: Float64Array, row: number, usual: number, far: number): number | undefined {
  const { most, fit } = settings.astray;
  let end = row + 1;
  while (end < Math.min(t.length, row + most) && !(Math.abs(t[end] - t[end - 1]) > far)) end++;
  const isBack = end < t.length && Math.abs(t[end] - t[row - 1] - (end - row + 1) * usual) <= fit * usual;
  return isBack ? end : undefined;
}
