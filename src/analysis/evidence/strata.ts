import { success, type Result } from '../../result/result.ts';
import type { Run } from '../../values/run.ts';
import { refuse } from '../messages/evidence.ts';
import { factOf } from '../../values/sheetColumns.ts';
import { dayOf } from './runOrder.ts';
import { comparedIn, measuredIn, type Sides } from './sides.ts';

/** What runs are compared within: those that share the words of one or more columns of the run sheet. */
export interface Strata {
  readonly columns: readonly string[];
  /** In the order in which they appear: `low`, or `low, brick` of several columns. */
  readonly names: readonly string[];
  /** The same with their columns, as sentences have them: `flow low`, `flow low × surface brick`. */
  readonly words: readonly string[];
  /** The stratum of each run, in the order of the sides. */
  readonly of: readonly string[];
  /** Whether they are days, or cells of days. */
  readonly isOfDays: boolean;
}

/** A stratum as sentences have it; undefined over all, and where there are none. */
export const wordsOf = (strata: Strata | undefined, stratum: string | undefined): string | undefined =>
  stratum === undefined ? undefined : strata?.words[strata.names.indexOf(stratum)];

const dayColumns = ['day', 'session', 'date'];

/**
 * The strata of all runs by columns of the run sheet; of a column of dates by their days. Refused of a run that has
 * nothing in a column, of a column that has the same for all, and where a condition has no run in a stratum.
 */
export function strataOf(sides: Sides, columns: readonly string[]): Result<Strata | undefined> {
  if (columns.length === 0) return success(undefined);
  const of: string[] = [];
  const inWords = new Map<string, string>();
  for (const { name: side, tracks } of measuredIn(sides)) {
    for (const { run } of tracks) {
      const cells = columns.map((column) => cellOf(run, column));
      const empty = cells.findIndex((cell) => cell === undefined || cell === '');
      if (empty >= 0) return refuse('within.empty', { run: run.label, side, column: columns[empty] }, 'within');
      const name = cells.join(', ');
      inWords.set(name, cells.map((cell, k) => `${columns[k]} ${cell}`).join(' × '));
      of.push(name);
    }
  }
  const names = [...new Set(of)];
  if (names.length === 1) return refuse('within.one', { column: columns.join(', '), word: names[0] }, 'within');
  let at = 0;
  for (const { name, tracks } of comparedIn(sides)) {
    const own = of.slice(at, (at += tracks.length));
    const missing = names.find((stratum) => !own.includes(stratum));
    if (missing !== undefined)
      return refuse('within.missing', { side: name, column: columns.join(', '), stratum: missing }, 'within');
  }
  const isOfDays = columns.some((column) => dayColumns.includes(column.toLowerCase()));
  return success({ columns, names, words: [...inWords.values()], of, isOfDays });
}

function cellOf(run: Run, column: string): string | undefined {
  const cell = factOf(run.sheet?.facts ?? {}, column);
  if (column.toLowerCase() !== 'date' || cell === undefined || cell === '') return cell;
  return dayOf(run) === undefined ? cell : cell.slice(0, 'YYYY-MM-DD'.length);
}
