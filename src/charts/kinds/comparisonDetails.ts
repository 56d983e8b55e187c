import { detailsCaption, ruledOutHeading, scatterHeading, comparedName } from '../words/compared.ts';
import type { ComparisonRow } from '../../values/comparisonParts.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import { aligned } from '../../values/number.ts';
import type { TablePart } from '../output.ts';
import { columns, type Column } from './kind.ts';

interface Detail {
  readonly column: Column;
  readonly texts: readonly (string | undefined)[];
}

function detailsOf(rows: readonly ComparisonRow[]): Detail[] {
  const figures = (column: Column, of: (row: ComparisonRow) => number | undefined): Detail => {
    const texts = aligned(rows.map(of), 3);
    return { column, texts: rows.map((row, index) => (of(row) === undefined ? undefined : texts[index])) };
  };
  return [
    figures([ruledOutHeading, '%'], ({ excludes }) => excludes?.eitherWayPercent),
    figures([scatterHeading, '%'], ({ spread }) => (spread === undefined ? undefined : spread * 100)),
  ];
}

/** What the data rule out and how the runs scatter; only the columns that have a figure. */
export function detailsTable(value: ComparisonValue): TablePart | undefined {
  const { rows } = value;
  const shown = detailsOf(rows).filter(({ texts }) => texts.some((text) => text !== undefined));
  if (shown.length === 0) return undefined;
  return {
    type: 'table',
    folded: true,
    caption: detailsCaption(shown.some(({ column: [heading] }) => heading === ruledOutHeading)),
    columns: columns(['Band', '', 'left'], ...shown.map(({ column }) => column)),
    rows: rows.map((row, index) => [comparedName(value, row), ...shown.map(({ texts }) => texts[index] ?? '–')]),
  };
}
