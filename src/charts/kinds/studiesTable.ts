import { capitalised } from '../../result/words.ts';
import { interval, noFigure, signed } from '../../values/number.ts';
import type { TablePart } from '../output.ts';
import { forestIntervalHeading, forestOutcome, forestPlace, type ForestRow } from '../words/studies.ts';
import { columns } from './kind.ts';

/** Changes of studies, study by study, with their intervals. */
export const studiesTable = (caption: string, rows: readonly ForestRow[]): TablePart => ({
  type: 'table',
  caption,
  columns: columns(
    ['Study', '', 'left'],
    ['Change in', '', 'left'],
    ['Outcome', '', 'left'],
    ['Change', '%'],
    [forestIntervalHeading(rows), '%'],
  ),
  rows: rows.map((row) => {
    const { value, low, high } = interval(row.changePercent, row.lowPercent, row.highPercent);
    return [
      row.study,
      capitalised(forestPlace(row, rows)),
      forestOutcome(row),
      signed(value),
      row.lowPercent === undefined ? noFigure : `${signed(low)} to ${signed(high)}`,
    ];
  }),
});
