import { cellsOf, type Cell, type Cells } from './cells.ts';
import type { ComparisonRow, ComparisonSide } from './comparisonParts.ts';
import { finite } from './jsonNumbers.ts';

/** A row of a comparison with the sides that it holds against one another. */
export interface HeldRow {
  readonly row: ComparisonRow;
  readonly a: ComparisonSide;
  readonly b: ComparisonSide;
}

/** What the levels are of, and by what runs are told apart besides their condition. */
export interface ComparedOf {
  readonly channel: string;
  readonly metric: string;
  readonly hasStrata: boolean;
  readonly hasAxes: boolean;
}

/** The level of each run behind a comparison: one row a band, axis and run, in the order of the sides. */
export function comparedLevels(held: readonly HeldRow[], { channel, metric, hasStrata, hasAxes }: ComparedOf): Cells {
  const units = [...new Set(held.map(({ row }) => row.unit.symbol))];
  const unit = units.length === 1 ? units[0] : '';
  const optional = (...asked: readonly (readonly [boolean, string])[]): (readonly [string, string])[] =>
    asked.flatMap(([is, name]) => (is ? [[name, ''] as const] : []));
  return cellsOf(
    hasAxes ? 'Level of each run' : `Level of each run, channel ${channel}`,
    [
      ['condition', ''],
      ...optional([hasStrata, 'stratum'], [hasAxes, 'axis']),
      ...([
        ['run', ''],
        ['place', ''],
        ['from', 'Hz'],
        ['to', 'Hz'],
      ] as const),
      ...optional([units.length > 1, 'unit']),
      [metric, unit],
    ],
    held.flatMap(({ row, a, b }, index) => {
      // Each side stands once in a band, however many changes it has a part in.
      const isTold = (name: string): boolean => held.slice(0, index).some((one) => isOfSameLevels(one.row, row, name));
      const levels = ({ name, runs, places, strata }: ComparisonSide, each: readonly number[]): Cell[][] =>
        runs.map(({ label }, run) => [
          name,
          ...(hasStrata ? [row.stratum ?? strata?.[run] ?? null] : []),
          ...(hasAxes ? [row.channel] : []),
          label,
          places?.[run] ?? null,
          row.band.from,
          finite(row.band.to),
          ...(units.length > 1 ? [row.unit.symbol] : []),
          finite(each[run]),
        ]);
      return [...(isTold(a.name) ? [] : levels(a, row.aRuns)), ...(isTold(b.name) ? [] : levels(b, row.bRuns))];
    }),
  );
}

/** Whether a row has the levels of a side that another one has: of its band, channel and stratum. */
const isOfSameLevels = (before: ComparisonRow, row: ComparisonRow, name: string): boolean =>
  (before.baseline === name || before.condition === name) &&
  before.band.from === row.band.from &&
  before.band.to === row.band.to &&
  before.channel === row.channel &&
  (before.stratum === row.stratum || before.stratum === undefined);
