import { success, type Result } from '../../result/result.ts';
import { intervalHalfWidth, runsNeeded, smallestChange } from '../../statistics/repeats.ts';
import type { RepeatsValue } from '../../values/repeats.ts';
import { refuse } from '../messages/planning.ts';

/** Rows of the table, and how far it goes to show the number that is needed. */
const usualRows = 12;
const mostRows = 30;

/** What a test of two conditions should be able to do; all as fractions. */
export interface RepeatsDesign {
  /** The reduction that is to be shown if it is there; above 0 and below 1. */
  readonly detect: number;
  /** Standard deviation of ln(level) from run to run; above 0. */
  readonly spread: number;
  readonly power: number;
  readonly confidence: number;
}

/**
 * How many runs of each condition a two-sided t test needs, and what so many runs can show (noncentral t; see
 * `runsNeeded` and `smallestChange`). Refused of a power that chance alone reaches, which is 1 - confidence.
 *
 * @throws RangeError for figures out of range
 */
export function repeatsOf(design: RepeatsDesign): Result<RepeatsValue> {
  const { detect, spread, power, confidence } = design;
  if (power <= 1 - confidence) return refuse('repeats.power', { power, confidence }, 'power');
  const needed = runsNeeded(-100 * detect, design);
  return success({
    kind: 'repeats',
    ...design,
    runs: needed?.runs,
    ...(needed === undefined ? {} : { reached: needed.power }),
    table: rowsFor(needed?.runs).map((runs) => ({
      runs,
      smallestPercent: smallestChange(runs, design).reductionPercent,
      halfWidthPercent: 100 * Math.expm1(intervalHalfWidth(runs, spread, confidence)),
    })),
  });
}

/** 2, 3, 4 … to the usual end, or a little past the number needed. */
function rowsFor(needed: number | undefined): number[] {
  const last = Math.max(usualRows, Math.min(mostRows, (needed ?? 0) + 2));
  const rows = Array.from({ length: last - 1 }, (_, k) => k + 2);
  return needed !== undefined && needed > last ? [...rows, needed] : rows;
}
