import type { TableValue } from '../../verbs/values.ts';
import { counted } from '../names.ts';
import { noFigure, plain } from '../number.ts';
import type { Part } from '../output.ts';
import type { Presenter } from './kind.ts';

/** Beyond this a table is for a file, not for a page. */
const rowLimit = 200;

/** The figures as they are; the first rows of a long table, and how many there are. */
export const presentTable: Presenter<'table'> = ({ caption, columns, rows }) => {
  const shown = rows.slice(0, rowLimit);
  const cut = shown.length < rows.length ? ` (the first ${shown.length} of ${counted(rows.length, 'row')})` : '';
  const part: Part = {
    type: 'table',
    caption: `${caption}${cut}`,
    columns: columns.map(({ name, unit }, index) => ({ name, unit, align: numeric(rows, index) ? 'right' : 'left' })),
    rows: shown.map((row) =>
      row.map((cell) => (typeof cell === 'string' ? cell : cell === null ? noFigure : plain(cell))),
    ),
  };
  return [part];
};

const numeric = (rows: TableValue['rows'], column: number): boolean =>
  rows.every((row) => typeof row[column] !== 'string');
