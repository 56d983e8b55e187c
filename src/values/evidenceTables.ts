import { cell, tableOf } from './cells.ts';
import type { ComparisonValue } from './comparison.ts';
import type { TableValue } from './table.ts';
import type { OrderValue } from './order.ts';
import type { PlanValue } from './plan.ts';
import type { RepeatsValue } from './repeats.ts';
import type { SheetValue } from './sheet.ts';
import type { VerdictValue } from './verdict.ts';

// The numbers behind comparisons and what is planned before and judged after.

export function comparisonTable({ a, b, rows }: ComparisonValue): TableValue {
  const unit = rows[0]?.unit.symbol ?? '';
  return tableOf(
    `${b.name} against ${a.name}`,
    [
      ['from', 'Hz'],
      ['to', 'Hz'],
      [a.name, unit],
      [b.name, unit],
      ['change', '%'],
      ['low', '%'],
      ['high', '%'],
      ['change', 'dB'],
      ['p', ''],
      ['p adjusted', ''],
      ['outcome', ''],
      [`share of ${a.name}`, '%'],
      ['spread', '%'],
      ['ruled out beyond', '%'],
    ],
    rows.map((row) => [
      row.band.from,
      row.band.to,
      row.a,
      row.b,
      row.changePercent,
      cell(row.lowPercent),
      cell(row.highPercent),
      row.changeDb,
      cell(row.p),
      cell(row.pAdjusted),
      row.outcome,
      cell(row.shareOfA),
      cell(row.spread === undefined ? undefined : 100 * row.spread),
      cell(row.excludes?.eitherWayPercent),
    ]),
  );
}

export function verdictTable(value: VerdictValue): TableValue {
  const { claim, verdict, band } = value;
  return tableOf(
    'Claim against measurement',
    [
      ['claim', ''],
      ['verdict', ''],
      ['from', 'Hz'],
      ['to', 'Hz'],
      ['reduction', '%'],
      ['low', '%'],
      ['high', '%'],
      ['reduction of mean square', '%'],
    ],
    [
      [
        claim,
        verdict,
        band.from,
        band.to,
        value.reductionPercent,
        cell(value.lowPercent),
        cell(value.highPercent),
        value.powerReductionPercent,
      ],
    ],
  );
}

export const repeatsTable = ({ table }: RepeatsValue): TableValue =>
  tableOf(
    'Runs of each condition',
    [
      ['runs', ''],
      ['smallest reduction', '%'],
      ['half-width of the interval', '%'],
    ],
    table.map((row) => [row.runs, row.smallestPercent, row.halfWidthPercent]),
  );

export const orderTable = ({ sequence, conditions }: OrderValue): TableValue =>
  tableOf(
    'Order of the runs',
    [
      ['order', ''],
      ['condition', ''],
    ],
    sequence.map((letter, index) => [index + 1, conditions?.[letter === 'A' ? 0 : 1] ?? letter]),
  );

export const sheetTable = ({ file, columns, rows }: SheetValue): TableValue =>
  tableOf(
    file,
    columns.map((name) => [name, ''] as const),
    rows.map(({ facts }) => columns.map((name) => facts[name] ?? '')),
  );

export const planTable = ({ entries }: PlanValue): TableValue =>
  tableOf(
    'Plan',
    [
      ['item', ''],
      ['settled as', ''],
    ],
    entries.map(({ word, text }) => [word, text]),
  );
