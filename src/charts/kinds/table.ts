import { firstRows } from '../words/limits.ts';
import type { TableValue } from '../../values/table.ts';
import { counted } from '../../result/words.ts';
import { aligned, fixed, noFigure, plain, scientific, significant } from '../../values/number.ts';
import type { Part } from '../output.ts';
import type { Presenter } from './kind.ts';
import { log10Of } from '../../numbers/logarithm.ts';

/** Beyond this a table is for a file, not for a page. */
const rowLimit = 200;
/** As many as the record keeps. */
const digits = 6;

/** The figures as they are; the first rows of a long table, and how many there are. */
export const presentTable: Presenter<'table'> = ({ caption, columns, rows }) => {
  const shown = rows.slice(0, rowLimit);
  const cut = shown.length < rows.length ? firstRows(shown.length, counted(rows.length, 'row')) : '';
  const texts = columns.map(({ name }, index) =>
    columnTexts(
      shown.map((row) => row[index]),
      /^p\b/.test(name),
    ),
  );
  const part: Part = {
    type: 'table',
    caption: `${caption}${cut}`,
    columns: columns.map(({ name, unit, written = name }, index) => ({
      name: written,
      unit,
      align: numeric(rows, index) ? 'right' : 'left',
    })),
    rows: shown.map((_, row) => texts.map((column) => column[row])),
  };
  return [part];
};

const numeric = (rows: TableValue['rows'], column: number): boolean =>
  rows.every((row) => typeof row[column] !== 'string');

type Cell = TableValue['rows'][number][number];

/** A figure this small beside the largest of its column is what rounding left of 0. */
const roundingLeft = 1e-12;

/**
 * Whole and short figures as they are; measured ones with equally many decimals, or all as powers of ten where most of them
 * need it. A row that is about 0 does not turn the others into powers.
 *
 * @param mayBeTiny of a column in which the smallest figure is told, too: a p
 */
function columnTexts(cells: readonly Cell[], mayBeTiny: boolean): string[] {
  const sizes = cells.flatMap((cell) => (typeof cell === 'number' && Number.isFinite(cell) ? [Math.abs(cell)] : []));
  const largest = Math.max(0, ...sizes);
  const isLeft = (cell: number): boolean => !mayBeTiny && Math.abs(cell) < roundingLeft * largest;
  const figures = cells.map((cell) => (typeof cell === 'number' ? (isLeft(cell) ? 0 : cell) : null));
  const known = figures.flatMap((figure) => (figure === null || figure === 0 ? [] : [figure]));
  // Counts are exact, however long.
  const whole = known.every(Number.isSafeInteger);
  const short = known.every((figure) => figure === Number(figure.toPrecision(4)));
  const exponents = known
    .filter(Number.isFinite)
    .map((figure) => Math.floor(log10Of(Math.abs(figure))))
    .sort((x, y) => x - y);
  const [least, middle, most] = [0, Math.floor(exponents.length / 2), exponents.length - 1].map((k) => exponents[k]);
  const far = most >= 6 || middle < -4 || (least < -4 && most < -2);
  const texts = far ? [] : aligned(figures, digits);
  return cells.map((cell, index) => {
    const figure = figures[index];
    if (typeof cell === 'string') return cell;
    if (figure === null) return noFigure;
    if (whole) return fixed(figure, 0);
    if (short || figure === 0) return plain(figure);
    return far && Number.isFinite(figure) ? scientific(figure, digits) : (texts[index] ?? significant(figure, digits));
  });
}
