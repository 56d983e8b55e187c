import type { Column, Figure, Shown } from '../../values/description.ts';
import { figuresIn } from '../../values/rows.ts';
import { capitalised } from '../../result/words.ts';
import { distinct } from '../words/names.ts';
import { aligned, fixed, noFigure, plain, signed, significant, printedUnit } from '../../values/number.ts';
import type { TablePart } from '../output.ts';

/**
 * A table of described figures as people read them: names to the left, figures to the right, a dash where there is none.
 * @param digits significant digits of figures that do not set their own
 */
export function figuresTable<Row, V>(
  caption: string,
  columns: readonly Column<Row, V>[],
  rows: readonly Row[],
  value: V,
  digits?: number,
): TablePart {
  const those = figuresIn(columns).filter(({ inTableOf }) => inTableOf?.(value) !== false);
  const shown = withUnits(those, rows, value).map((figure) =>
    columnOf(figure.each === 'as given' || digits === undefined ? figure : { digits, ...figure }, rows, value),
  );
  return {
    type: 'table',
    caption,
    columns: shown.map(({ texts: _texts, ...column }) => column),
    rows: rows.map((_, index) => shown.map(({ texts }) => texts[index])),
  };
}

/** Where the rows' own units differ, a column of them follows the names. */
function withUnits<Row, V>(figures: Figure<Row, V>[], rows: readonly Row[], value: V): Figure<Row, V>[] {
  const mixed = figures.find((figure) => unitsOf(figure, rows, value).length > 1)?.unit;
  if (typeof mixed !== 'function') return figures;
  const names = figures.findIndex((figure) => rows.some((row) => typeof figure.read(row, value) === 'number'));
  const unit: Figure<Row, V> = { key: 'unit', unit: '', read: (row) => printedUnit(mixed(row, value).symbol) };
  return [...figures.slice(0, names), unit, ...figures.slice(names)];
}

const unitsOf = <Row, V>({ unit }: Figure<Row, V>, rows: readonly Row[], value: V): string[] =>
  typeof unit === 'function' ? distinct(rows.map((row) => unit(row, value).symbol)) : [unit];

type ShownColumn = TablePart['columns'][number] & { readonly texts: readonly string[] };

function columnOf<Row, V>(figure: Figure<Row, V>, rows: readonly Row[], value: V): ShownColumn {
  const { key, heading, title, percent, signed: withSign, read } = figure;
  const headed = typeof heading === 'function' ? heading(value) : (heading ?? key);
  const name = title ?? capitalised(headed.replaceAll('_', ' '));
  const cells = rows.map((row) => read(row, value));
  if (cells.some((cell) => typeof cell === 'string'))
    return { name, unit: '', align: 'left', texts: cells.map((cell) => String(cell ?? noFigure)) };
  const units = unitsOf(figure, rows, value);
  const scale = percent === true ? 100 : 1;
  const numbers = cells.map((cell) => (typeof cell === 'number' ? scale * cell : undefined));
  // Figures in several units are not compared down the column.
  const texts = numbersShown(numbers, units.length > 1 ? { ...figure, each: 'rounded' } : figure);
  const unit = percent === true ? '%' : units.length === 1 ? units[0] : '';
  return { name, unit, align: 'right', texts: withSign === true ? texts.map(signed) : texts };
}

function numbersShown(values: readonly (number | undefined)[], { digits, decimals, each }: Shown): string[] {
  if (decimals !== undefined) return values.map((value) => (value === undefined ? noFigure : fixed(value, decimals)));
  if (each === 'as given') return values.map((value) => plain(value, digits));
  return each === 'rounded' ? values.map((value) => significant(value, digits)) : aligned(values, digits);
}
