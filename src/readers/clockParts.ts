import { success, type Result } from '../result/result.ts';
import { stepShape } from './clock/steps.ts';
import { refuse } from './messages.ts';
import type { ClockParts } from './recording.ts';
import { columnName, type StampColumn } from './table.ts';
import { logOf } from '../numbers/logarithm.ts';

/** How far, as a factor, the rate of a reading may lie from the stated one. */
const near = 3;

/**
 * What the two parts of a clock such as `10:20` are, by the option, the header, a first part above 23, or the rate that
 * is stated; `none` where that fits neither, `other` of a clock that has other parts. Refuses one of which both readings
 * are possible.
 * @param stated the rate in Hz, where one is
 */
export function clockParts(
  path: string,
  index: number,
  column: StampColumn,
  stated: number | undefined,
  option: ClockParts | undefined,
): Result<ClockParts | 'other' | 'none'> {
  const { style, quantum, header = '', values } = column;
  if (style !== 'clock m:s' || quantum < 1) return success('other');
  const named = /\bh{1,2}:m{2}\b/i.test(header) ? 'hh:mm' : /\bm{1,2}:s{2}\b/i.test(header) ? 'mm:ss' : undefined;
  const known = option ?? named ?? (values.some((value) => value >= 24 * 60) ? 'mm:ss' : undefined);
  if (known !== undefined) return success(known);
  const { forwardMedian, zero, count } = stepShape(values);
  const rate = (1 + zero / Math.max(count - zero, 1)) / forwardMedian;
  const fits = (of: number): boolean => stated !== undefined && Math.abs(logOf(of / stated)) < logOf(near);
  if (fits(rate) !== fits(rate / 60)) return success(fits(rate) ? 'mm:ss' : 'hh:mm');
  // With the rate stated the recording can do without.
  if (stated !== undefined || !(forwardMedian > 0)) return success('none');
  return refuse('clock-parts', { path, column: columnName(column, index), rates: [rate / 60, rate] });
}
