import type { ComparisonRow, ComparisonValue, PercentInterval } from '../../verbs/values.ts';
import { comparedName } from '../compared.ts';
import { interval, probability, signed, significant } from '../number.ts';
import type { TablePart } from '../output.ts';
import { columns, type Column } from './kind.ts';

interface Detail {
  readonly column: Column;
  readonly of: (row: ComparisonRow) => string | undefined;
}

const span = (limits: PercentInterval | undefined): string | undefined => {
  if (limits === undefined) return undefined;
  const { low, high } = interval(0, limits.lowPercent, limits.highPercent);
  return `${signed(low)} to ${signed(high)}`;
};

const allAtOnce: Column = ['Interval for all bands at once', '%'];

const details: readonly Detail[] = [
  {
    column: ['Reductions beyond are ruled out', '%'],
    of: ({ excludes }) => excludes && significant(excludes.reductionPercent, 2),
  },
  { column: ['Increases beyond', '%'], of: ({ excludes }) => excludes && significant(excludes.increasePercent, 2) },
  { column: allAtOnce, of: ({ simultaneous }) => span(simultaneous) },
  { column: ['Interval that had to lie within the margin', '%'], of: ({ equivalence }) => span(equivalence) },
  { column: ['p of equivalence', ''], of: ({ equivalence }) => equivalence && probability(equivalence.p) },
  {
    column: ['Scatter from run to run', '%'],
    of: ({ spread }) => (spread === undefined ? undefined : significant(spread * 100, 2)),
  },
];

/** What the data rule out, and the other intervals; only the columns that have a figure. */
export function detailsTable(value: ComparisonValue): TablePart | undefined {
  const { rows } = value;
  // With one row the interval for all of them is the row's own.
  const wanted = rows.length > 1 ? details : details.filter(({ column }) => column !== allAtOnce);
  const shown = wanted.filter(({ of }) => rows.some((row) => of(row) !== undefined));
  if (shown.length === 0) return undefined;
  return {
    type: 'table',
    caption: 'What the data rule out, and how the runs scatter',
    columns: columns(['Band', '', 'left'], ...shown.map(({ column }) => column)),
    rows: rows.map((row) => [comparedName(value, row), ...shown.map(({ of }) => of(row) ?? '–')]),
  };
}

/** What the other possible methods say of the same figures. */
export function sensitivityTable(value: ComparisonValue): TablePart | undefined {
  const rows = value.rows.flatMap((row) => (row.sensitivity ?? []).map((other) => ({ row, other })));
  if (rows.length === 0) return undefined;
  return {
    type: 'table',
    caption: 'The same figures by other methods',
    columns: columns(['Band', '', 'left'], ['Method', '', 'left'], ['Change', '%'], ['Interval', '%'], ['p', '']),
    rows: rows.map(({ row, other }) => {
      const { value: change, low, high } = interval(other.changePercent, other.lowPercent, other.highPercent);
      return [
        comparedName(value, row),
        other.method,
        signed(change),
        `${signed(low)} to ${signed(high)}`,
        probability(other.p),
      ];
    }),
  };
}
