import { success, type Result } from '../../result/result.ts';
import {
  intervalHalfWidth,
  runsForEquivalence,
  runsNeeded,
  smallestChange,
  smallestMargin,
  type RunsNeeded,
} from '../../statistics/repeats.ts';
import type { RepeatsValue } from '../../values/repeats.ts';
import { refuse } from '../messages/planning.ts';
import { expm1Of } from '../../numbers/exponential.ts';

/** Rows of the table, and how far it goes to show the number that is needed. */
const usualRows = 12;
const mostRows = 30;

/** What is to be shown if it is so, as a fraction: a reduction below 1, or that both are the same within a margin. */
export type Wanted = { readonly detect: number } | { readonly equivalent: number };

/** What a test should be able to do; spread, power and confidence as fractions. */
export type RepeatsDesign = Wanted & {
  /** Standard deviation of ln(level) from run to run; above 0. */
  readonly spread: number;
  readonly power: number;
  readonly confidence: number;
  /** How many conditions, the baseline among them; 2 unless said. */
  readonly conditions?: number;
};

/**
 * How many runs of each condition, in an interleaved order that is written down, a comparison needs to show what is
 * wanted, each condition against the baseline and all their changes together, and what so many runs can show (see `runsNeeded` and `runsForEquivalence`). Refused of a power that chance
 * alone reaches, which is 1 - confidence.
 *
 * @throws RangeError for figures out of range
 */
export function repeatsOf(asked: RepeatsDesign): Result<RepeatsValue> {
  const { power, confidence, conditions = 2 } = asked;
  // The changes of all conditions hold together.
  const design = conditions === 2 ? asked : { ...asked, confidence: 1 - (1 - confidence) / (conditions - 1) };
  if (power <= 1 - confidence) return refuse('repeats.power', { power, confidence }, 'power');
  const needed = neededFor(design);
  return success({
    kind: 'repeats',
    ...asked,
    runs: needed?.runs,
    ...(needed === undefined ? {} : { reached: needed.power, method: needed.method }),
    table: rowsFor(needed?.runs).map((runs) => ({
      runs,
      smallestPercent:
        'detect' in design ? smallestChange(runs, design).reductionPercent : 100 * smallestMargin(runs, design),
      halfWidthPercent: 100 * expm1Of(intervalHalfWidth(runs, design)),
    })),
  });
}

const neededFor = (design: RepeatsDesign): RunsNeeded | undefined =>
  'detect' in design ? runsNeeded(-100 * design.detect, design) : runsForEquivalence(design.equivalent, design);

/** 3, 4 … to the usual end, or a little past the number needed. */
function rowsFor(needed: number | undefined): number[] {
  const last = Math.max(usualRows, Math.min(mostRows, (needed ?? 0) + 2));
  const rows = Array.from({ length: last - 2 }, (_, k) => k + 3);
  return needed !== undefined && needed > last ? [...rows, needed] : rows;
}
