import { firstRows } from '../words/limits.ts';
import type { TableValue } from '../../values/table.ts';
import { counted } from '../../result/words.ts';
import { aligned, fixed, noFigure, plain, scientific, significant } from '../../values/number.ts';
import type { Part } from '../output.ts';
import type { Presenter } from './kind.ts';

/** Beyond this a table is for a file, not for a page. */
const rowLimit = 200;
/** As many as the record keeps. */
const digits = 6;

/** The figures as they are; the first rows of a long table, and how many there are. */
export const presentTable: Presenter<'table'> = ({ caption, columns, rows }) => {
  const shown = rows.slice(0, rowLimit);
  const cut = shown.length < rows.length ? firstRows(shown.length, counted(rows.length, 'row')) : '';
  const texts = columns.map((_, index) => columnTexts(shown.map((row) => row[index])));
  const part: Part = {
    type: 'table',
    caption: `${caption}${cut}`,
    columns: columns.map(({ name, unit }, index) => ({ name, unit, align: numeric(rows, index) ? 'right' : 'left' })),
    rows: shown.map((_, row) => texts.map((column) => column[row])),
  };
  return [part];
};

const numeric = (rows: TableValue['rows'], column: number): boolean =>
  rows.every((row) => typeof row[column] !== 'string');

type Cell = TableValue['rows'][number][number];

/** Whole and short figures as they are; measured ones with equally many decimals, or all as powers of ten. */
function columnTexts(cells: readonly Cell[]): string[] {
  const figures = cells.map((cell) => (typeof cell === 'number' ? cell : null));
  const known = figures.flatMap((figure) => (figure === null || figure === 0 ? [] : [figure]));
  // Counts are exact, however long.
  const whole = known.every(Number.isSafeInteger);
  const short = known.every((figure) => figure === Number(figure.toPrecision(4)));
  const exponents = known.map((figure) => Math.floor(Math.log10(Math.abs(figure))));
  const far = Math.min(...exponents) < -4 || Math.max(...exponents) >= 6;
  const texts = far ? [] : aligned(figures, digits);
  return cells.map((cell, index) => {
    if (typeof cell === 'string') return cell;
    if (cell === null) return noFigure;
    if (whole) return fixed(cell, 0);
    if (short || cell === 0) return plain(cell);
    return far && Number.isFinite(cell) ? scientific(cell, digits) : (texts[index] ?? significant(cell, digits));
  });
}
