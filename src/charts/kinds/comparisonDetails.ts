import type { ComparisonRow, ComparisonValue, PercentInterval, Sensitivity } from '../../values/comparison.ts';
import { comparedName } from '../compared.ts';
import { capitalised } from '../../result/words.ts';
import { distinct } from '../names.ts';
import { aligned, interval, probability, signed } from '../number.ts';
import type { TablePart } from '../output.ts';
import { columns, type Column } from './kind.ts';

interface Detail {
  readonly column: Column;
  readonly texts: readonly (string | undefined)[];
}

const span = (limits: PercentInterval | undefined): string | undefined => {
  if (limits === undefined) return undefined;
  const { low, high } = interval(0, limits.lowPercent, limits.highPercent);
  return `${signed(low)} to ${signed(high)}`;
};

function detailsOf(rows: readonly ComparisonRow[]): Detail[] {
  const figures = (column: Column, of: (row: ComparisonRow) => number | undefined): Detail => {
    const texts = aligned(rows.map(of), 3);
    return { column, texts: rows.map((row, index) => (of(row) === undefined ? undefined : texts[index])) };
  };
  return [
    figures(['Larger changes, either way, are ruled out', '%'], ({ excludes }) => excludes?.eitherWayPercent),
    // With one row the interval for all of them is the row's own.
    ...(rows.length > 1
      ? [
          {
            column: ['Interval for all bands at once (Bonferroni)', '%'] as const,
            texts: rows.map((row) => span(row.simultaneous)),
          },
        ]
      : []),
    { column: ['Interval held against the margin', '%'], texts: rows.map(({ equivalence }) => span(equivalence)) },
    {
      column: ['p of equivalence', ''],
      texts: rows.map(({ equivalence }) => equivalence && probability(equivalence.p)),
    },
    figures(['Scatter from run to run', '%'], ({ spread }) => (spread === undefined ? undefined : spread * 100)),
  ];
}

/** What the data rule out, and the other intervals; only the columns that have a figure. */
export function detailsTable(value: ComparisonValue): TablePart | undefined {
  const { rows } = value;
  const shown = detailsOf(rows).filter(({ texts }) => texts.some((text) => text !== undefined));
  if (shown.length === 0) return undefined;
  return {
    type: 'table',
    folded: true,
    caption: 'What the data rule out, and how the runs scatter',
    columns: columns(['Band', '', 'left'], ...shown.map(({ column }) => column)),
    rows: rows.map((row, index) => [comparedName(value, row), ...shown.map(({ texts }) => texts[index] ?? '–')]),
  };
}

/** What the other possible methods say of the same figures: a column a method. */
export function sensitivityTable(value: ComparisonValue): TablePart | undefined {
  const rows = value.rows.filter(({ sensitivity = [] }) => sensitivity.length > 0);
  const methods = distinct(rows.flatMap(({ sensitivity = [] }) => sensitivity.map(({ method }) => method)));
  if (methods.length === 0) return undefined;
  return {
    type: 'table',
    folded: true,
    caption: 'The same change by other methods: change (interval) in %, p',
    columns: columns(['Band', '', 'left'], ...methods.map((method) => [methodName(method), ''] as const)),
    rows: rows.map((row) => [
      comparedName(value, row),
      ...methods.map((method) => otherText(row.sensitivity?.find((other) => other.method === method))),
    ]),
  };
}

const methodName = (method: string): string => (method === 'pooled' ? 'Pooled t' : capitalised(method));

function otherText(other: Sensitivity | undefined): string {
  if (other === undefined) return '–';
  const { value, low, high } = interval(other.changePercent, other.lowPercent, other.highPercent);
  return `${signed(value)} (${signed(low)} to ${signed(high)}), p ${probability(other.p)}`;
}
